import type { Token } from '../text/tokens.js';
import { day, isoOf } from './day-arithmetic.js';
import { longest } from './found-date.js';
import { fullDate } from './full-dates.js';
import { spanDate } from './spans.js';
import { weekdayDate } from './weekdays.js';

export type DatedSpan = { from: number; to: number; date: string; sure: boolean };

const anyDate = longest([fullDate, weekdayDate, spanDate]);

/**
 * The days that a message names, British order, counted from `today` (YYYY-MM-DD), in the order said. `from` and `to` are
 * token indices, `to` past the end. Number words must have been turned into figures.
 */
export function dueDates(tokens: readonly Token[], today: string): DatedSpan[] {
  const start = day(today);
  const dates: DatedSpan[] = [];
  for (let at = 0; at < tokens.length;) {
    const answer = anyDate(tokens, at, start);
    if (answer === null) {
      at += 1;
      continue;
    }
    dates.push({ from: at, to: at + answer.length, date: isoOf(answer.date), sure: answer.sure });
    at += answer.length;
  }
  return dates;
}
