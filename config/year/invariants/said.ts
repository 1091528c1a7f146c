import type { JobEventType } from '../../../src/job/events.js';
import type { Recorded } from '../../../src/record/types.js';

/** A thing as it was said: the chat message's id in the record, and the words. */
export type Said = { message: string; text: string };

type Counts = Partial<Record<JobEventType, number>>;

/** What the play's sentences tell, each to stand in the record so many times. */
const TELLS: readonly (readonly [RegExp, Counts])[] = [
  [/^new job: /, { 'job-opened': 1 }],
  [/: .* (?:rusty|worn|tired|dirty)\b.*, /, { 'finding-logged': 1, 'remedy-decided': 1 }],
  [/: .*, \d+ quid$/, { 'cost-noted': 1 }],
  [/: (?:sent|ordered) the .* (?:to|from) .*, due /, { 'line-opened': 1 }],
  [/: .* back from .*(?:lovely job|refused it)$/, { 'line-returned': 1 }],
  [/: owner agreed to all of it$/, { 'owner-answered': 1 }],
  [/: (?!steps|checks)[a-z ]+ done$/, { 'work-done': 1 }],
  [/: road tested, all good$/, { 'road-tested': 1 }],
  [/: handed over$/, { 'handed-over': 1 }],
];

/** Everything that was said stands in the record as what it is, as often as it was told. */
export function notAsOften(said: readonly Said[], events: readonly Recorded[]): string[] {
  const counts = new Map<string, number>();
  for (const { message, type } of events) {
    const key = `${message ?? ''} ${type}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return said.flatMap(({ message, text }) =>
    TELLS.filter(([pattern]) => pattern.test(text)).flatMap(([, wanted]) =>
      Object.entries(wanted).flatMap(([type, times]) => {
        const stands = counts.get(`${message} ${type}`) ?? 0;
        return stands === times ? [] : [`“${text}” stands ${stands} times in the record as ${type}`];
      }),
    ),
  );
}

/** No gate is passed twice without having opened again in between. */
export function passedTwice(job: string, events: readonly Recorded[]): string[] {
  const passed = new Set<string>();
  const undone = new Set(
    events.flatMap(({ type, data }) =>
      type === 'message-undone' ? [(data as { message: string }).message] : [],
    ),
  );
  return events.flatMap(({ type, data, message }) => {
    if (type !== 'gate-passed' && type !== 'gate-reopened') return [];
    if (message !== undefined && undone.has(message)) return [];
    const { gate } = data as { gate: string };
    const again = type === 'gate-passed' && passed.has(gate);
    if (type === 'gate-passed') passed.add(gate);
    else passed.delete(gate);
    return again ? [`${job} passed ${gate} twice`] : [];
  });
}
