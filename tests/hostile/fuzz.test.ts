import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Person } from '../../bot/rehearsal/person.js';
import type { ChatEvent } from '../../bot/rehearsal/happenings.js';
import type { Action } from '../../src/wording/answer.js';
import type { Stroke, Writer } from './strokes.js';
import { MALFORMED, stroke, WRITERS } from './strokes.js';
import type { Town } from './town.js';
import { openTown } from './town.js';

const STROKES = 10_000;
const SEED = 20_260_302;
/** So many updates wait for the bot at once. */
const AT_ONCE = 50;
/** What a mechanic may press here without letting anybody in, or forgetting somebody. */
const HARMLESS: readonly Action['do'][] = [
  'undo',
  'explain-change',
  'answer-more',
  'show-timeline',
  'work-done',
  'unlearn',
];

let town: Town;
const seen = new Map<number, string[]>();

beforeAll(async () => {
  town = await openTown(note);
  const actions = await Promise.all([...tokens].map((token) => town.record.buttons.get(token)));
  const does = new Set(actions.map((action) => (action as Action).do));
  // Without these among the buttons to be stolen, stealing them would prove nothing.
  for (const kind of ['owner-answer', 'supplier-says', 'undo', 'invite']) expect([...does]).toContain(kind);
  seen.clear();
}, 60_000);
afterAll(() => town.stop());

/** Everything that the bot put before somebody's eyes, buttons and alerts included. */
function note(event: ChatEvent): void {
  const add = (text: string): void => {
    const texts = seen.get(event.chatId) ?? [];
    seen.set(event.chatId, texts);
    texts.push(text);
  };
  if (event.type === 'toast') add(event.text);
  if ((event.type !== 'message' && event.type !== 'edit') || !event.byBot) return;
  const buttons = event.message.reply_markup?.inline_keyboard.flat() ?? [];
  for (const button of buttons) if ('callback_data' in button) tokens.add(button.callback_data);
  const labels = buttons.map(({ text }) => text);
  add([event.message.text ?? event.message.caption ?? '', ...labels].join('\n'));
}

const sent: Record<Writer, number[]> = { stranger: [], owner: [], supplier: [], mechanic: [] };
const own = (who: Writer): number[] => sent[who];

async function strike(each: Stroke, buttons: readonly string[]): Promise<void> {
  const person: Person = town.people[each.who];
  const keep = ({ messageId }: { messageId: number }): void => void own(each.who).push(messageId);
  const pick = <T>(list: readonly T[], at: number): T | undefined => list[at % Math.max(1, list.length)];
  switch (each.kind) {
    case 'says': {
      const replyTo = each.replyTo === null ? undefined : pick(own(each.who), each.replyTo);
      return keep(
        await person.say(each.text, {
          ...(replyTo === undefined ? {} : { replyTo }),
          ...(each.forwarded ? { forwardFrom: 'Somebody else' } : {}),
        }),
      );
    }
    case 'edits': {
      const message = pick(own(each.who), each.message);
      if (message !== undefined) await person.edit(message, each.text);
      return;
    }
    case 'presses': {
      const token = pick(buttons, each.token) ?? 'none';
      if (each.who !== 'mechanic' || (await isHarmless(token))) await press(person, token);
      return;
    }
    case 'forges':
      return press(person, each.data);
    case 'starts':
      return keep(
        await person.say(`/start ${each.payload ?? pick(town.usedSecrets, each.who.length) ?? ''}`),
      );
    case 'file':
      return keep(await person.send(fileContent(each)));
    case 'odd':
      return keep(await person.send(each.content));
    case 'group':
      return void (await person.inGroup({ id: -7000 }).say(each.text));
  }
}

async function press(person: Person, data: string): Promise<void> {
  const message = {
    message_id: 1,
    date: 1_772_442_000,
    chat: { id: person.chatId, type: 'private', first_name: 'S' },
  };
  await town.rehearsal.inject({
    callback_query: { id: 'none', from: person.user, chat_instance: '1', data, message },
  } as Parameters<typeof town.rehearsal.inject>[0]);
}

function fileContent({ file, caption, album }: Extract<Stroke, { kind: 'file' }>): Record<string, unknown> {
  const { unique, handle, name, mime, size } = file;
  const base = {
    file_id: handle,
    file_unique_id: unique,
    file_size: size,
    ...(mime === null ? {} : { mime_type: mime }),
  };
  const content = {
    photo: { photo: [{ ...base, width: 1, height: 1 }] },
    voice: { voice: { ...base, duration: 1 } },
    audio: { audio: { ...base, duration: 1, file_name: name } },
    document: { document: { ...base, file_name: name } },
  }[file.as];
  return {
    ...content,
    ...(caption === '' ? {} : { caption }),
    ...(album === null ? {} : { media_group_id: album }),
  };
}

/** Every button that the bot ever showed, whoever it was for: somebody hostile has seen them all. */
const tokens = new Set<string>();

/** Whether a mechanic may press a button here. */
async function isHarmless(token: string): Promise<boolean> {
  const action = (await town.record.buttons.get(token)) as Action | undefined;
  return action === undefined || HARMLESS.includes(action.do);
}

/** The error of a log line and where it was thrown. */
function whatFailed(line: string): string {
  const { err, msg } = JSON.parse(line) as { err?: { message?: string; stack?: string }; msg: string };
  const place = /^ +at .*$/m.exec(err?.stack ?? '')?.[0].trim() ?? '';
  return `${msg}: ${err?.message ?? ''} ${place}`;
}

describe(`${STROKES} things sent in ill will or madness`, () => {
  beforeAll(async () => {
    const strokes = fc.sample(stroke, { seed: SEED, numRuns: STROKES });
    for (let from = 0; from < strokes.length; from += AT_ONCE) {
      const buttons = [...tokens];
      for (const each of strokes.slice(from, from + AT_ONCE)) await strike(each, buttons);
      await town.rehearsal.quiet({ timeoutMs: 30_000 });
    }
  }, 120_000);

  it('break nothing: each is dealt with at the first try', async () => {
    // Answers to a group that the bot has left already are turned away, and nothing is lost by it.
    const faults = town.warnings.filter((line) => !line.includes('"trouble":"shut-out"'));
    expect([...new Set(faults.map(whatFailed))]).toEqual([]);
    expect((await town.record.inbox.poisoned()).map(({ key }) => key)).toEqual([]);
  });

  it('show nobody a word of what is kept of others', () => {
    for (const who of WRITERS) {
      if (who === 'mechanic') continue;
      const text = (seen.get(town.people[who].chatId) ?? []).join('\n');
      expect(text.length).toBeGreaterThan(1_000);
      expect(
        town.secrets[who].filter((word) => text.includes(word)),
        who,
      ).toEqual([]);
    }
    expect(seen.get(town.otherOwner.chatId) ?? []).toEqual([]);
    expect(seen.get(town.otherSupplier.chatId) ?? []).toEqual([]);
    const group = (seen.get(-7000) ?? []).join('\n');
    expect(town.secrets.stranger.filter((word) => group.includes(word))).toEqual([]);
  });

  it('write nothing into what is not theirs', async () => {
    const people = await town.record.people.all();
    const byChat = (person: Person): string =>
      people.find(({ chatId }) => chatId === person.chatId)?.id ?? 'none';
    const { events: shop } = await town.record.events('shop');
    const jobs = shop.flatMap(({ type, data }) =>
      type === 'job-registered' ? [data as { job: string; title: string }] : [],
    );
    const bravoton = jobs.find(({ title }) => title === 'Bravoton')?.job ?? '';
    const { events } = await town.record.events(`job-${bravoton}`);
    const outsiders = [byChat(town.people.owner), byChat(town.people.supplier), byChat(town.people.stranger)];
    expect(outsiders[2]).toBe('none');
    expect(shop.filter(({ by }) => outsiders.includes(by))).toEqual([]);
    // The mechanic, raving, may have sent something of the Bravoton's to the supplier; what they hold they may speak of.
    const held = events.flatMap(({ data }) => (data as { supplier?: string | null }).supplier ?? []);
    const writers = new Set(events.map(({ by }) => by));
    expect(outsiders.filter((by) => writers.has(by) && !held.includes(by))).toEqual([]);
    for (const other of [town.otherOwner, town.otherSupplier].map(byChat)) {
      const theirs = (await town.record.events(`contact-${other}`)).events.map(({ by }) => by);
      expect(theirs.filter((by) => ![other, 'benchhand', 'mechanic-1'].includes(by))).toEqual([]);
    }
  });

  it('leave messages that can still be worded, without a word of others in them', async () => {
    const people = await town.record.people.all();
    for (const who of WRITERS) {
      const id = people.find(({ chatId }) => chatId === town.people[who].chatId)?.id;
      if (id === undefined) continue;
      const { events } = await town.record.events(`contact-${id}`);
      const ids = events.flatMap(({ type, data }) =>
        type === 'message-intended' ? [(data as { id: string }).id] : [],
      );
      for (const message of ids.slice(-200)) {
        const prepared = await town.desk.prepareSend(id, message, town.driver.now());
        const text = JSON.stringify(prepared);
        if (who !== 'mechanic') expect(town.secrets[who].filter((word) => text.includes(word))).toEqual([]);
      }
    }
  });
});

describe('updates that the chat service would never make', () => {
  it('are put aside at worst, and what comes after them is answered', async () => {
    const before = (await town.record.inbox.poisoned()).length;
    for (const body of MALFORMED)
      await town.rehearsal.inject(body as Parameters<typeof town.rehearsal.inject>[0]);
    const { messageId } = await town.people.mechanic.say('machines');
    const answer = await town.people.mechanic.waitFor(({ text }) => text.includes('ton'), {
      after: messageId,
      timeoutMs: 30_000,
    });
    expect(answer.text).toContain('Bravoton');
    expect((await town.record.inbox.poisoned()).length - before).toBeLessThanOrEqual(MALFORMED.length);
  });
});
