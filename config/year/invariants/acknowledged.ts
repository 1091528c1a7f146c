import type { InboxState, Person, Recorded } from '../../../src/record/types.js';
import type { Put } from '../answers.js';
import { answersTo } from '../answers.js';
import type { Act, Happened } from '../journal.js';
import type { ForgottenOne } from '../ledger.js';

/** An act with what was answered to it, and what the record has of it. */
export type Kept = { act: Act; answers: readonly Put[]; inbox: InboxState; left: readonly Recorded[] };

/** What people did, each with the events that came of it: their commands bear its update's number. */
export function keptOf(
  happened: readonly Happened[],
  inboxOf: (update: number) => InboxState,
  events: readonly Recorded[],
): Kept[] {
  const byUpdate = new Map<number, Recorded[]>();
  for (const event of events) {
    const update = updateOf(event.command);
    if (update !== null) byUpdate.set(update, [...(byUpdate.get(update) ?? []), event]);
  }
  return happened
    .filter((entry): entry is Act => entry.kind === 'act')
    .map((act) => ({
      ...{ act, answers: answersTo(happened, act), inbox: inboxOf(act.update) },
      left: byUpdate.get(act.update) ?? [],
    }));
}

function updateOf(command: string): number | null {
  const number = /^u(\d+)v?(?:-|$)/.exec(command)?.[1];
  return number === undefined ? null : Number(number);
}

/** What some kinds of talk leave in the record, once for each time that they are said. */
export const LEAVES: readonly (readonly [RegExp, readonly string[]])[] = [
  [/^new job: /, ['job-opened', 'job-registered']],
  [/^supplier /, ['person-added']],
  [/^invite /, ['invitation-made']],
  [/^\/start ./, ['invitation-taken']],
  [/: .* (rusty|worn|tired|worn out|dirty), /, ['finding-logged']],
  [/: (sent|ordered) the .*, due /, ['line-opened']],
  [/ back from .*, (lovely job|refused it)/, ['line-returned']],
  [/: owner agreed to all of it$/, ['owner-answered']],
  [/^Yes to all of it/, ['message-received']],
  [/^Sorry, running late: /, ['promise-made', 'message-received']],
  [/^When will it be ready/, ['message-received']],
  [/: road tested, /, ['road-tested']],
  [/: handed over$/, ['handed-over', 'job-closed']],
];

/** What comes of messages whose answers hold a secret, or a name that is forgotten. */
const UNKEPT: readonly string[] = ['invitation-made', 'person-forgotten'];

/** Every message that was acknowledged is finished, stands in the record by its own number, and nothing of it stands there twice. */
export function notKeptOnce(
  kept: readonly Kept[],
  leaves = LEAVES,
  forgotten: readonly ForgottenOne[] = [],
): string[] {
  return kept.flatMap(({ left, ...each }) => {
    const { act, inbox } = each;
    const said = saidIn(act);
    const types = left.map(({ type }) => type);
    const wanted = act.how === 'message' ? (leaves.find(([words]) => words.test(act.text))?.[1] ?? []) : [];
    return [
      // Such an answer is not kept: it is made again for whoever asks again.
      ...(inbox.state === 'done' ||
      types.some((type) => UNKEPT.includes(type)) ||
      mayBeForgotten(each, forgotten)
        ? []
        : [`${said} was not finished`]),
      ...wanted.flatMap((type) => {
        const times = types.filter((each) => each === type).length;
        return times === 1 ? [] : [`${said} left ${times} times ${type}`];
      }),
      ...keptTwice({ act, left }),
    ];
  });
}

const saidIn = ({ text, update }: Act): string => `“${text}” (update ${update})`;

const keptTwice = ({ act, left }: Pick<Kept, 'act' | 'left'>): string[] =>
  twice(left).map(({ type }) => `${saidIn(act)} left the same ${type} twice`);

/** Shorter words are anybody's. */
const OWN_WORDS_FROM = 8;

/** What is kept: words beside the streams, the people who are known, and what those said. */
type KeptElse = { words: readonly string[]; people: readonly Person[]; said: readonly string[] };

/** Of somebody unknown nothing is kept, neither of what they say nor of their chat; but that they opened a link is, and once. */
export function keptOfStrangers(kept: readonly Kept[], { words, people, said }: KeptElse): string[] {
  return kept.flatMap(({ act, inbox, left }) => {
    const { text, chat } = act;
    const isOpening = OPENS_LINK.test(text);
    const isWordKept =
      text.length >= OWN_WORDS_FROM && !said.includes(text) && words.some((each) => each.includes(text));
    const isChatKept = people.some(({ chatId, address }) => chatId === chat || address === `${chat}`);
    return [
      ...(inbox.state === (isOpening ? 'done' : 'new') ? [] : [`is ${inbox.state} in the inbox`]),
      ...(isOpening ? [] : left.map(({ type }) => `left ${type}`)),
      ...(isWordKept ? ['is kept in words'] : []),
      ...(isChatKept ? ['has its chat kept'] : []),
    ]
      .map((what) => `${saidIn(act)}, of somebody unknown, ${what}`)
      .concat(keptTwice({ act, left }));
  });
}

const OPENS_LINK = /^\/start ./;

/** Whether what came of it went with somebody who was forgotten after it: it was theirs, or it or its answer named them. */
export function mayBeForgotten(
  { act, answers, inbox }: Omit<Kept, 'left'>,
  forgotten: readonly ForgottenOne[],
): boolean {
  const said = [act, ...answers].map(({ text }) => text);
  return (
    inbox.state === 'new' &&
    forgotten
      .filter(({ at }) => act.at <= at * 1000)
      .some(
        ({ traces, chat }) =>
          act.chat === chat || said.some((text) => traces.some((trace) => text.includes(trace))),
      )
  );
}

/** What comes of a message may have to be tried again. */
const TRIES: readonly string[] = ['message-attempted', 'message-postponed'];

/** Events of one message that say the same; the ids of words are their own by the message anyway. */
function twice(left: readonly Recorded[]): Recorded[] {
  const once = left.filter(({ type }) => !TRIES.includes(type));
  const said = once.map(({ type, data, id }) => `${streamOf(id)} ${type} ${JSON.stringify(data)}`);
  return once.filter((_, index) => said.indexOf(said[index] ?? '') !== index);
}

const streamOf = (id: string): string => id.replace(/\.\d+$/, '');

/** Nothing stands in the record as somebody's that they did not say. */
export function neverSaid(happened: readonly Happened[], events: readonly Recorded[]): string[] {
  const updates = new Set(happened.flatMap((entry) => (entry.kind === 'act' ? [entry.update] : [])));
  return events.flatMap(({ command, type, id }) => {
    const update = updateOf(command);
    return update === null || updates.has(update) ? [] : [`${type} (${id}) comes of no message`];
  });
}
