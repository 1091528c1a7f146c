import type { InboxState, Person, Recorded } from '../../../src/record/types.js';
import type { Put } from '../answers.js';
import { MECHANIC_CHATS } from '../cast.js';
import type { Act, Happened } from '../journal.js';
import { mechanicsMessage } from '../telling.js';
import type { ForgottenOne } from '../ledger.js';
import type { Saying } from './sayings.js';
import { notAsSaid } from './sayings.js';

/** An act with what was answered to it, and what the record has of it. */
export type Kept = { act: Act; answers: readonly Put[]; inbox: InboxState; left: readonly Recorded[] };

/** What people did, each with the events that came of it: their commands bear its update's number. */
export function leftOf(
  happened: readonly Happened[],
  events: readonly Recorded[],
): Pick<Kept, 'act' | 'left'>[] {
  const byUpdate = new Map<number, Recorded[]>();
  for (const event of events) {
    const update = updateOf(event.command);
    if (update !== null) byUpdate.set(update, [...(byUpdate.get(update) ?? []), event]);
  }
  return happened
    .filter((entry): entry is Act => entry.kind === 'act')
    .map((act) => ({ act, left: byUpdate.get(act.update) ?? [] }));
}

function updateOf(command: string): number | null {
  const number = /^u(\d+)v?(?:-|$)/.exec(command)?.[1];
  return number === undefined ? null : Number(number);
}

/** What comes of messages whose answers hold a secret, or a name that is forgotten. */
const UNKEPT: readonly string[] = ['invitation-made', 'person-forgotten'];

const saidIn = ({ text, update }: Act): string => `“${text}” (update ${update})`;

/** Whether a message's id in the record is that of an act: two chats number theirs alike. */
const isOf = ({ chat, message }: Act, id: string): boolean =>
  MECHANIC_CHATS.includes(chat)
    ? id === mechanicsMessage({ chatId: chat }, message)
    : id.endsWith(`-${message}`) && !id.startsWith('mechanic-');

/** Everything that was said, or changed by an edit, left in the record just what it tells, as of that very message. */
export function notLeft(kept: readonly Pick<Kept, 'act' | 'left'>[], sayings: readonly Saying[]): string[] {
  return kept.flatMap(({ act, left }) => {
    if (act.how === 'press') return [];
    const undone = act.how === 'edit' ? { 'message-undone': 1 } : {};
    const types = left.map(({ type }) => type);
    // What is put right stands as of the message that was wrong, so that one undo takes it back.
    const own = left.flatMap(({ type, data }) =>
      type === 'message-undone' ? [(data as { message: string }).message] : [],
    );
    const others = left.filter(
      ({ message }) =>
        message !== undefined && !isOf(act, message) && (act.how === 'edit' || !own.includes(message)),
    );
    return [
      ...notAsSaid(act.text, types, sayings, undone).map((what) => `${saidIn(act)} ${what}`),
      ...others.map(({ type, message }) => `${saidIn(act)} left ${type} as of message ${message}`),
    ];
  });
}

/** Every message that was acknowledged is finished, and nothing of it stands in the record twice. */
export function notKeptOnce(kept: readonly Kept[], forgotten: readonly ForgottenOne[] = []): string[] {
  return kept.flatMap(({ left, ...each }) => [
    // Such an answer is not kept: it is made again for whoever asks again.
    ...(each.inbox.state === 'done' ||
    left.some(({ type }) => UNKEPT.includes(type)) ||
    mayBeForgotten(each, forgotten)
      ? []
      : [`${saidIn(each.act)} was not finished`]),
    ...keptTwice({ act: each.act, left }),
  ]);
}

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
