import fc from 'fast-check';

/** Who writes: some are strangers, one has a job in the shop, one has things of the shop's, one works there. */
export const WRITERS = ['stranger', 'owner', 'supplier', 'mechanic'] as const;
export type Writer = (typeof WRITERS)[number];

/** One thing that somebody hostile, or just strange, sends. Numbers pick from what there is at that moment. */
export type Stroke =
  | { kind: 'says'; who: Writer; text: string; replyTo: number | null; forwarded: boolean }
  | { kind: 'edits'; who: Writer; text: string; message: number }
  | { kind: 'presses'; who: Writer; token: number }
  | { kind: 'forges'; who: Writer; data: string }
  | { kind: 'starts'; who: Writer; payload: string | null }
  | { kind: 'file'; who: Writer; file: OddFile; caption: string; album: string | null }
  | { kind: 'odd'; who: Writer; content: Record<string, unknown> }
  | { kind: 'group'; who: Writer; text: string };

export type OddFile = {
  as: 'photo' | 'voice' | 'document' | 'audio';
  unique: string;
  handle: string;
  name: string;
  mime: string | null;
  size: number;
};

/** Things said at a bench and in its chats, whole and in pieces: sense is more dangerous than noise. */
const SAID = [
  ...[
    'what is with the Bravoton',
    'where is 2',
    'the list',
    'list',
    'people',
    'machines',
    'shop rules',
    'undo',
  ],
  ...[
    'what’s blocking reassembly',
    'what has it cost',
    'photos of 1',
    'history of 2',
    'when will it be ready?',
  ],
  ...[
    'what has the plater got of ours',
    'what have I got of yours?',
    'what was agreed',
    'show me everything',
  ],
  ...['working on the Bravoton', 'on the Bravoton: tank rusty', 'rule 5: 2 days', 'invite me', 'handed over'],
  ...['yes', 'no', 'yes to it all', 'yes to 2', 'ready Friday', 'it will be the 20th', 'the rims are ready'],
  ...[
    'front fork tubes pitted, new pair, about eighty quid',
    'took the dynamo off, it’s in box 3',
    '12 done',
  ],
  ...[
    'want it reassembled by 12 June',
    'next step',
    'fault: weeping',
    'fault 1 fixed',
    'step 9 done',
    'help',
  ],
  ...[
    'closed 24 December to 2 January',
    'are you well?',
    'timeline',
    'what if 2 is a week late?',
    'ask the owner',
  ],
  ...['not 12, 13', 'no, the rear one', 'cancel that', '"pawl spring" means gearchange pawl spring'],
  ...[
    'job-1',
    'line-1',
    'contact-mechanic-1',
    'mechanic-1',
    'benchhand:{desk}:people',
    'notice-1',
    'added-1',
  ],
  ...[
    '__proto__',
    'constructor',
    'toString',
    '{}',
    '[]',
    'null',
    '0',
    '-1',
    '1e308',
    '999999999999999999999',
  ],
  ...[
    '£0.00000000001',
    '9'.repeat(400) + ' quid',
    '31 February',
    'the 99th of Smarch',
    '00:00',
    'in 10000 years',
  ],
  ...['/start', '/bench', '/list', '/people', '/mine', '/progress', '/nonsense', '/start@other', '/order 1'],
];

const noise = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 200 }),
  fc.string({ unit: 'grapheme', minLength: 3_000, maxLength: 3_800 }),
  fc.constantFrom(
    '\u202e\u0000\u200d',
    'é'.normalize('NFD').repeat(900),
    '😀'.repeat(2_000),
    '\n'.repeat(4_000),
    '*_`[<b>&',
  ),
  fc.constantFrom(
    ...['1 ', 'a, ', '£1 ', 'rims and ', '(', 'no '].map((piece) => piece.repeat(900).slice(0, 4_000)),
  ),
);
const words = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...SAID) },
  {
    weight: 3,
    arbitrary: fc
      .array(fc.constantFrom(...SAID), { minLength: 2, maxLength: 5 })
      .map((each) => each.join(', ')),
  },
  { weight: 1, arbitrary: noise },
);

const PATHS = [
  '../../../etc/passwd',
  '/etc/shadow',
  'a/b:c{d}',
  '..',
  'C:\\x',
  'x'.repeat(500),
  'a\u0000.jpg',
  '%2e%2e/',
];
const who = fc.constantFrom(...WRITERS);
const mostlyOutside = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom<Writer>('owner', 'supplier', 'stranger') },
  { weight: 1, arbitrary: fc.constant<Writer>('mechanic') },
);
const picked = fc.nat(10_000);

const file: fc.Arbitrary<OddFile> = fc.record({
  as: fc.constantFrom('photo', 'voice', 'document', 'audio'),
  unique: fc.oneof(fc.constantFrom(...PATHS), fc.string({ minLength: 1, maxLength: 30 })),
  handle: fc.oneof(fc.constantFrom(...PATHS), fc.string({ minLength: 1, maxLength: 60 })),
  name: fc.constantFrom(...PATHS),
  mime: fc.constantFrom(
    null,
    'image/png',
    'image/svg+xml',
    'text/html',
    'x'.repeat(300),
    'image/',
    '../../x',
  ),
  size: fc.constantFrom(0, 1, 20_000_000, 4_000_000_000, -1),
});

const ODD = [
  { location: { latitude: 51, longitude: 0 } },
  { contact: { phone_number: '+447700900000', first_name: 'X' } },
  { poll: { id: '1', question: 'yes?', options: [], type: 'regular' } },
  { dice: { emoji: '🎲', value: 6 } },
  { sticker: { file_id: 'a', file_unique_id: 'b', width: 1, height: 1, type: 'regular' } },
  { photo: [] },
  { new_chat_members: [{ id: 1, is_bot: false, first_name: 'X' }] },
  { pinned_message: { message_id: 1, date: 0, chat: { id: 1, type: 'private', first_name: 'X' } } },
  { text: '', entities: [{ type: 'bold', offset: -5, length: 9e9 }] },
  { web_app_data: { data: '{"do":"forget"}', button_text: 'x' } },
  { venue: { location: { latitude: 0, longitude: 0 }, title: '', address: '' }, caption: 'list' },
  {},
];

/** Updates that the chat service would never make. */
export const MALFORMED = [
  { message: null },
  { message: { message_id: 1 } },
  { callback_query: { id: '1' } },
  {
    callback_query: { id: 'x', from: { id: 1, is_bot: false, first_name: '' }, chat_instance: '', data: 'x' },
  },
  { message: { message_id: 'one', date: 'today', chat: {}, from: {}, text: 5 } },
  { edited_message: {} },
];

/** All strokes, in the mix of a bad day. */
export const stroke: fc.Arbitrary<Stroke> = fc.oneof(
  {
    weight: 44,
    arbitrary: fc.record({
      kind: fc.constant('says' as const),
      who: mostlyOutside,
      text: words,
      replyTo: fc.option(picked, { freq: 3 }),
      forwarded: fc.boolean(),
    }),
  },
  {
    weight: 12,
    arbitrary: fc.record({ kind: fc.constant('edits' as const), who, text: words, message: picked }),
  },
  {
    weight: 16,
    arbitrary: fc.record({ kind: fc.constant('presses' as const), who: mostlyOutside, token: picked }),
  },
  {
    weight: 6,
    arbitrary: fc.record({
      kind: fc.constant('forges' as const),
      who,
      data: fc.oneof(
        fc.string({ maxLength: 40 }),
        fc.constantFrom('{"do":"forget","person":"x"}', 'undo:job-1', 'button:x', '*', '__proto__', ''),
      ),
    }),
  },
  {
    weight: 5,
    arbitrary: fc.record({
      kind: fc.constant('starts' as const),
      who,
      payload: fc.option(fc.stringMatching(/^[A-Za-z0-9_-]{1,64}$/), { freq: 2 }),
    }),
  },
  {
    weight: 8,
    arbitrary: fc.record({
      kind: fc.constant('file' as const),
      who,
      file,
      caption: fc.oneof(
        fc.constant(''),
        words.map((text) => text.slice(0, 1_000)),
      ),
      album: fc.option(fc.constantFrom('1', '2', '__proto__')),
    }),
  },
  {
    weight: 5,
    arbitrary: fc.record({ kind: fc.constant('odd' as const), who, content: fc.constantFrom(...ODD) }),
  },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('group' as const), who, text: words }) },
);
