import type { ContactEventType } from '../../../src/contact/events.js';
import type { JobEventType } from '../../../src/job/events.js';
import type { ShopEventType } from '../../../src/shop/events.js';

type EventType = JobEventType | ShopEventType | ContactEventType;
export type Counts = Readonly<Partial<Record<EventType, number>>>;

/** A kind of sentence, and what of it stands in the record each time that it is said, how often. */
export type Saying = readonly [RegExp, Counts];

const FOUND = { 'finding-logged': 1, 'remedy-decided': 1 } as const;
const RECEIVED = { 'message-received': 1 } as const;

/** All that is said in the play; a sentence may be of several kinds. */
export const SAYINGS: readonly Saying[] = [
  [
    /^new job: /,
    { 'job-opened': 1, 'arrival-noted': 1, 'gate-passed': 1, 'person-added': 1, 'job-registered': 1 },
  ],
  [/^supplier /, { 'person-added': 1 }],
  [/^supplier .*, (?:chrome|paint|reline|rewind), /, { 'supplier-described': 1 }],
  // A number is kept beside the person, apart from events.
  [/^owner .*, [\d ]+$/, {}],
  [/^invite /, { 'invitation-made': 1 }],
  [/^\/start ./, { 'invitation-taken': 1 }],
  [/^we are closed from /, { 'policy-set': 1 }],
  // Done once the button is pressed.
  [/^forget /, {}],
  [/^what’s (?:overdue|next)\?$/, {}],

  [/: .* (?:rusty|worn|tired|dirty|bent|torn)\b.*, /, { 'item-listed': 1, ...FOUND }],
  [/: .*: just clean it then$/, FOUND],
  [/: .*, \d+ quid$/, { 'cost-noted': 1 }],
  [/^(?:no, that’s the |not the )/, { 'message-undone': 1, 'item-listed': 1, ...FOUND }],
  [/: ask the owner$/, { 'yes-asked': 1 }],
  [/: owner agreed to (?:all of it|the .* after all)$/, { 'owner-answered': 1 }],
  [/: want it .* by /, { 'wanted-by-set': 1 }],
  [/: (?:sent|ordered) the .* (?:to|from) .*, due /, { 'line-opened': 1 }],
  [/: .* back from /, { 'line-returned': 1 }],
  [/: (?!steps|checks)[a-z ]+ done$/, { 'work-done': 1 }],
  [/: steps 1 to 59 done$/, { 'step-fitted': 59 }],
  [/: checks 1 to 27 done$/, { 'check-done': 27 }],
  [/: road test(?:ed\b.*, |: )/, { 'road-tested': 1 }],
  [/: (?:road test|fault): /, { 'fault-found': 1 }],
  [/: fault \d+ fixed$/, { 'fault-cleared': 1 }],
  [/: handed over$/, { 'handed-over': 1, 'job-closed': 1 }],
  // An owner's word is kept as theirs, anybody else's with the machine.
  [/: .* rang, to be rung back on 01632 960555$/, RECEIVED],
  [/: .* rang, to be rung back on 01632 9601\d\d$/, { 'note-kept': 1 }],

  [/^Yes to all of it, please go ahead$/, { ...RECEIVED, 'owner-answered': 1 }],
  // The yes, and what it is not for.
  [/^Yes to all of it, but /, { ...RECEIVED, 'owner-answered': 2 }],
  [/^(?:Not now, |Let’s talk about it |No to all of it )/, { ...RECEIVED, 'owner-answered': 1 }],
  [
    /^(?:How is it coming on|When will it be ready|What have you spent|how much so far|any news)\?$/,
    RECEIVED,
  ],
  [/^My cousin /, RECEIVED],
  [/^Sorry, running late: /, { ...RECEIVED, 'line-answered': 1, 'promise-made': 1 }],
  [/^Sorry, we can’t take /, { ...RECEIVED, 'line-answered': 1 }],
];

/** What may follow from what was said, by what else is known. */
const FOLLOWS: readonly EventType[] = [
  'caution-given',
  'item-fitted',
  'gate-reopened',
  'notice-drafted',
  'notice-dropped',
  'message-intended',
  'message-attempted',
  'message-postponed',
  'message-sent',
  'message-dropped',
];
const follows = (type: string): boolean => FOLLOWS.some((each) => each === type);

/** Where a sentence left anything else in the record than it should, in words; `types`: of the events that came of it; `besides`: more that it should. */
export function notAsSaid(
  text: string,
  types: readonly string[],
  sayings: readonly Saying[],
  besides: Counts = {},
): string[] {
  const kinds = sayings.filter(([pattern]) => pattern.test(text));
  if (kinds.length === 0) return ['is of no kind that is known here'];
  const wanted: Counts = Object.assign({ ...besides }, ...kinds.map(([, counts]) => counts)) as Counts;
  const all = new Set([...Object.keys(wanted), ...types.filter((type) => !follows(type))]);
  return [...all].flatMap((type) => {
    const times = types.filter((each) => each === type).length;
    const right = (wanted as Readonly<Record<string, number>>)[type] ?? 0;
    return times === right ? [] : [`left ${times} times ${type}, not ${right}`];
  });
}
