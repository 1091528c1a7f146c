import { DateTime } from 'luxon';
import { ZONE } from '../../demo/shop-time.js';
import type { Seen } from '../../../bot/rehearsal/seen.js';

/** A chat as the play knows it: whose it is, all that was written in it, and whose names may stand in it. */
export type ChatOf = {
  who: string;
  part: 'owner' | 'supplier';
  chatId: number;
  messages: readonly Seen[];
  /** Names that are none of theirs: other machines, other people's. */
  foreign: readonly string[];
};

/** Bank holidays of England and Wales 2026 (GOV.UK, bank holidays; from memory). */
const BANK_HOLIDAYS = new Set([
  ...[
    '2026-01-01',
    '2026-04-03',
    '2026-04-06',
    '2026-05-04',
    '2026-05-25',
    '2026-08-31',
    '2026-12-25',
    '2026-12-28',
  ],
]);

/** Messages that nobody asked for: an answer comes at the instant of what it answers. */
export function unasked(messages: readonly Seen[]): Seen[] {
  const written = new Set(messages.filter(({ by }) => by === 'person').map(({ date }) => date));
  return messages.filter(({ by, date }) => by === 'bot' && !written.has(date));
}

const localTime = ({ date }: Seen): DateTime => DateTime.fromSeconds(date, { zone: ZONE });

/** Owners: never between 20:00 and 08:00, nor on Sundays. Suppliers: nine to five on working days. */
export function outsideHours({ who, part, messages }: ChatOf): string[] {
  return unasked(messages).flatMap((message) => {
    const at = localTime(message);
    const minute = at.hour * 60 + at.minute;
    const isHeard =
      part === 'owner'
        ? at.weekday !== 7 && minute >= 8 * 60 && minute < 20 * 60
        : at.weekday <= 5 && !BANK_HOLIDAYS.has(at.toISODate() ?? '') && minute >= 9 * 60 && minute < 17 * 60;
    return isHeard ? [] : [`${who} was written to on ${at.toFormat('ccc d LLL HH:mm')}`];
  });
}

/** One message a supplier a local day, over all jobs. */
export function moreThanOneADay({ who, part, messages }: ChatOf): string[] {
  if (part !== 'supplier') return [];
  const days = unasked(messages)
    .filter(({ text }) => text.startsWith('Hello from'))
    .map((message) => localTime(message).toISODate() ?? '');
  return days
    .filter((day, index) => days.indexOf(day) !== index)
    .map((day) => `${who} was chased twice on ${day}`);
}

/** Nobody is shown another's machine or name. */
export function shownOthers({ who, messages, foreign }: ChatOf): string[] {
  return messages
    .filter(({ by }) => by === 'bot')
    .flatMap(({ text }) =>
      foreign.filter((name) => text.includes(name)).map((name) => `${who} was shown ${name}`),
    );
}

/** A promise given by a supplier in the chat, Unix seconds and the date promised. */
export type Answer = { who: string; at: number; promised: string; part: string };

/** After an answer nothing is asked of that thing until two working days before the new date. */
export function askedAfterAnswer({ who, messages }: ChatOf, answers: readonly Answer[]): string[] {
  return answers
    .filter((answer) => answer.who === who)
    .flatMap(({ at, promised, part }) => {
      const until = DateTime.fromISO(promised, { zone: ZONE }).minus({ days: 5 }).toSeconds();
      return unasked(messages)
        .filter(({ date, text }) => date > at && date < until && text.includes(part))
        .map(
          ({ date }) =>
            `${who} was asked about ${part} on ${DateTime.fromSeconds(date).toISODate()}, after an answer`,
        );
    });
}
