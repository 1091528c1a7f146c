import type { Note } from '../notes.js';
import type { Asked } from './expected-suppliers.js';
import { expectedOf } from './expected-suppliers.js';
import type { ChatOf } from './messages.js';
import { unasked } from './messages.js';
import { dateOf } from '../../demo/shop-time.js';

const COMING = 'A friendly word';
const LATE = /^(?:These were promised|We wrote a few days ago)/;

/** What a supplier was asked about in the chat, each thing of each day once. */
export function askedIn({ messages }: Pick<ChatOf, 'messages'>, things: readonly Thing[]): Asked[] {
  const found = unasked(messages)
    .filter(({ text }) => text.startsWith('Hello from'))
    .flatMap(({ date, text }) => rowsOf(text).map((row) => ({ ...row, day: dateOf(date * 1000) })));
  const asked = found.flatMap(({ day, as, words }) =>
    things
      .filter(({ job, part }) => words.includes(job.toLowerCase()) && namesPart(words, part))
      .map((thing) => ({ day, as, ...thing })),
  );
  return [...new Map(asked.map((each) => [keyOf(each), each])).values()];
}

type Thing = { job: string; part: string };
type Row = { as: Asked['as']; words: string };

function rowsOf(text: string): Row[] {
  let as: Asked['as'] = 'late';
  return text.split('\n').flatMap((line) => {
    if (line.startsWith(COMING)) as = 'coming';
    else if (LATE.test(line)) as = 'late';
    return line.startsWith('•') ? [{ as, words: line.toLowerCase() }] : [];
  });
}

/** Parts are called in the chat as in the trade's list: one of several, 'tool box' for a toolbox. */
function namesPart(words: string, part: string): boolean {
  return plain(words).includes(plain(part).replace(/s$/, ''));
}

const plain = (words: string): string => words.toLowerCase().replace(/ /g, '');

const keyOf = ({ day, job, part, as }: Asked): string => `${day} ${job} ${part} ${as}`;

/** Where a supplier was not asked just what should be asked, on the day and in the way it should be, up to an instant. */
export function notAsPolicySays(chat: ChatOf, notes: readonly Note[], by: number): string[] {
  if (chat.part !== 'supplier') return [];
  const { who } = chat;
  const things = notes.flatMap((each) => (each.what === 'out' && each.supplier === who ? [each] : []));
  const each = [...new Map(things.map(({ job, part }) => [`${job} ${part}`, { job, part }])).values()];
  const expected = expectedOf(who, notes, by);
  const asked = askedIn(chat, each);
  const had = new Set(asked.map(keyOf));
  const wanted = new Set(expected.map(keyOf));
  const said = (what: Asked): string =>
    `about the ${what.part} of the ${what.job} on ${what.day} (${what.as})`;
  return [
    ...expected.filter((one) => !had.has(keyOf(one))).map((one) => `${who} was not asked ${said(one)}`),
    ...asked.filter((one) => !wanted.has(keyOf(one))).map((one) => `${who} was asked untimely ${said(one)}`),
  ];
}
