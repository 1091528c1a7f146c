import { dateOf, instant } from '../../demo/shop-time.js';
import type { Happened } from '../journal.js';
import type { ClosedDays } from '../ledger.js';
import { OPENS } from './expected-nudges.js';
import { workedFrom } from './working-days.js';

/** The design's default: an owner is written to after so many of the shop's working days without a word either way. */
const SILENCE = 10;

/** What a notice says that has no other news. */
const NO_NEWS = 'A short word, so that you know how things stand.';

/** An owner in the chat, whose machine is in the shop. */
export type Waiting = { owner: string; chat: number };

/** When mechanics are to be shown a word to the owner, by what was written either way, or shown for them, before a day's opening; null before all that. */
export function wordDueOn(
  { owner, chat }: Waiting,
  happened: readonly Happened[],
  closed: readonly ClosedDays[],
  day: string,
): string | null {
  const last = happened.findLast(
    (entry, index) =>
      entry.at < instant(day, OPENS) &&
      !isSaidAgain(happened, index) &&
      ((entry.kind === 'act' && entry.chat === chat) ||
        (entry.kind === 'written' && (entry.chat === chat || isFor(owner, entry.text)))),
  );
  return last === undefined ? null : workedFrom(dateOf(last.at), SILENCE, closed);
}

/** What is answered once more, in the same words, to what came twice from the chat’s server is no new word. */
function isSaidAgain(happened: readonly Happened[], index: number): boolean {
  const entry = happened[index];
  if (entry?.kind !== 'written') return false;
  const since = happened.findLastIndex(
    ({ kind }, place) => place < index && (kind === 'woken' || kind === 'told-again'),
  );
  return (
    happened[since]?.kind === 'told-again' &&
    happened
      .slice(0, since)
      .some(
        ({ kind, ...of }) =>
          kind === 'written' && 'text' in of && of.chat === entry.chat && of.text === entry.text,
      )
  );
}

const isFor = (owner: string, text: string): boolean => text.startsWith(`For ${owner}, if you say so:`);

/** Where a mechanic was shown, on a day, a word for an owner's silence that was not due, or none that was. */
export function silenceAmiss(
  mechanic: { who: string; chat: number },
  waiting: Waiting,
  happened: readonly Happened[],
  closed: readonly ClosedDays[],
  day: string,
): string[] {
  const { owner } = waiting;
  const shown = happened.flatMap((entry) =>
    entry.kind === 'written' &&
    entry.chat === mechanic.chat &&
    dateOf(entry.at) === day &&
    isFor(owner, entry.text) &&
    entry.text.includes(NO_NEWS)
      ? [entry.at]
      : [],
  );
  const isDue = wordDueOn(waiting, happened, closed, day) === day;
  const inTime = shown.filter((at) => isDue && at === instant(day, OPENS));
  return [
    ...(isDue && inTime.length === 0
      ? [`${mechanic.who} was not shown on ${day} that ${owner} has had no word for ${SILENCE} working days`]
      : []),
    ...(shown.length > inTime.length
      ? [`${mechanic.who} was shown untimely on ${day} a word for ${owner}’s silence`]
      : []),
  ];
}
