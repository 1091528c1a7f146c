import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { day, isoOf } from './day-arithmetic.js';
import { dayStarts } from './day-words.js';
import { feastDate } from './feasts.js';
import { leadFrom, tailTo } from './day-parts.js';
import { longest } from './found-date.js';
import { fullDate } from './full-dates.js';
import { spanDate } from './spans.js';
import { weekdayDate } from './weekdays.js';

export type DatedSpan = { from: number; to: number; date: string; sure: boolean };

const anyDate = longest([fullDate, weekdayDate, spanDate, feastDate]);

/** "… the 4th of May, done by the 18th": a day alone after a fuller date counts from that. */
const sameMonth = (tokens: readonly Token[], at: number): boolean => {
  const the = tokens[at]?.word === 'the' ? 1 : 0;
  return tokens[at + the]?.ordinal === true && !/^(of|-|\/)$/.test(wordAt(tokens, at + the + 1));
};

const PUT_RIGHT = /^(no|sorry|mean|meant|rather|wait|lie|correction|scratch)$/;
/** Words that putting a day right takes, at most. */
const PUT_RIGHT_WORDS = 8;

/** "the 12th, no, sorry, the 11th": the day before was a slip, and nothing counts from it. */
const corrected = (tokens: readonly Token[], from: number, to: number): boolean =>
  to - from <= PUT_RIGHT_WORDS && tokens.slice(from, to).some(({ word }) => PUT_RIGHT.test(word));

/** Machines were built, and dates are told of them, from about 1900; common practice, no source. */
const FIRST_YEAR = 1900;
const YEARS_AHEAD = 25;

/** Beyond a restoration's own time, however long, a figure was no date: 'in 10000 years', '4 May 0012'. */
const isLikely = (year: number, thisYear: number): boolean =>
  year >= FIRST_YEAR && year <= thisYear + YEARS_AHEAD;

/**
 * The days that a message names, British order, counted from `today` (YYYY-MM-DD), in the order said. `from` and `to` are
 * token indices, `to` past the end. Number words must have been turned into figures.
 */
export function dueDates(tokens: readonly Token[], today: string): DatedSpan[] {
  const dates: DatedSpan[] = [];
  let end = 0;
  let base = day(today);
  for (const at of dayStarts(tokens)) {
    if (at < end) continue;
    const start = day(today);
    const last = dates.at(-1)?.date;
    const follows = last !== undefined && sameMonth(tokens, at);
    const from = !follows ? start : corrected(tokens, end, at) ? base : day(last);
    const answer = anyDate(tokens, at, from);
    if (answer === null || !isLikely(answer.date.year, start.year)) continue;
    end = at + answer.length;
    base = from;
    // "Thursday instead of Tuesday": the day that was given up.
    if (/^(instead of|rather than)$/.test(`${wordAt(tokens, at - 2)} ${wordAt(tokens, at - 1)}`)) continue;
    end = tailTo(tokens, end);
    dates.push({ from: leadFrom(tokens, at), to: end, date: isoOf(answer.date), sure: answer.sure });
  }
  return dates;
}
