import { Info } from 'luxon';
import { add, comingMonth, day, dayOf, endOfMonth, isoOf, type Day } from '../dates/day-arithmetic.js';
import { figures } from '../text/number-words.js';
import { joinTokens, tokenise } from '../text/tokens.js';
import { dayNamed } from './day.js';

/** Days from the first to the last, both counted: YYYY-MM-DD. */
export type DaySpan = { from: string; to: string };

const MONTHS = Info.months('long', { locale: 'en-GB' }).map((name) => name.toLowerCase());
const MONTH = `(${MONTHS.join('|')})(?: (\\d{4}))?`;

const NTH = ['first', 'second', 'third', 'fourth'];
const WEEKS = new RegExp(
  `^(?:the )?(${NTH.join('|')}|last) (?:(\\d) |a )?(weeks?|fortnight) (?:of|in) ${MONTH}$`,
);
const WHOLE_MONTH = new RegExp(`^(?:all |the whole |the month )?(?:of )?${MONTH}$`);
const LENGTH = /^(?:a |(\d{1,2}) )?(days?|weeks?|fortnights?)(?: (?:from|starting|beginning|as of) (.+))?$/;

/**
 * The days that words name, counted from `today`: '24 December to 2 January', 'the first two weeks of August', 'all of
 * August', 'next week', 'a fortnight from the 3rd', 'till Monday' (which is worked again), or one day. Null where the words
 * name no such span, or hold anything else besides.
 */
export function daySpan(words: string, today: string): DaySpan | null {
  const said = joinTokens(figures(tokenise(words.toLowerCase())))
    .replace(/^(?:from|for|during|in|over|on) /, '')
    .trim();
  return (
    tillDay(said, today) ??
    fromTo(said, today) ??
    weeksOf(said, today) ??
    wholeMonth(said, today) ??
    week(said, today) ??
    lengthOf(said, today) ??
    oneDay(said, today)
  );
}

const span = (from: Day, to: Day): DaySpan | null =>
  to < from ? null : { from: isoOf(from), to: isoOf(to) };

function tillDay(said: string, today: string): DaySpan | null {
  const until = dayNamed(/^(?:until|till|til) (.+)$/.exec(said)?.[1] ?? '', today);
  return until === null ? null : span(day(today), day(until).minus({ days: 1 }));
}

function fromTo(said: string, today: string): DaySpan | null {
  const [, first = '', last = ''] =
    /^(.+?)(?: (?:to|until|till|til|through) | ?[-–] ?)(.+)$/.exec(said) ?? [];
  const from = dayNamed(first, today) ?? dayNamed(`${first} ${monthIn(last)}`, today);
  const to = from === null ? null : dayNamed(last, from);
  return from === null || to === null ? null : span(day(from), day(to));
}

/** The month of '14 August', for the day before 'to' in '1 to 14 August'. */
const monthIn = (words: string): string =>
  /[a-z]{3,}/.exec(words.replace(/\d+(?:st|nd|rd|th)/g, ''))?.[0] ?? '';

/** Weeks of a month are counted from its first day; its last ones back from its last. */
function weeksOf(said: string, today: string): DaySpan | null {
  const [whole, nth = '', count, unit = '', month = '', year] = WEEKS.exec(said) ?? [];
  if (whole === undefined) return null;
  const first = firstOf(month, year, today);
  if (first === null) return null;
  const days = 7 * (unit === 'fortnight' ? 2 : Number(count ?? 1));
  if (nth === 'last') return span(endOfMonth(first).minus({ days: days - 1 }), endOfMonth(first));
  const from = first.plus({ days: days * NTH.indexOf(nth) });
  return span(from, from.plus({ days: days - 1 }));
}

function wholeMonth(said: string, today: string): DaySpan | null {
  const [whole, month = '', year] = WHOLE_MONTH.exec(said) ?? [];
  const first = whole === undefined ? null : firstOf(month, year, today);
  return first === null ? null : span(first, endOfMonth(first));
}

function firstOf(month: string, year: string | undefined, today: string): Day | null {
  const number = MONTHS.indexOf(month) + 1;
  return year === undefined ? comingMonth(day(today), number) : dayOf(Number(year), number, 1);
}

function week(said: string, today: string): DaySpan | null {
  const which = /^(?:all )?(this|next) week$/.exec(said)?.[1];
  if (which !== undefined) {
    const monday = day(today)
      .startOf('week')
      .plus({ weeks: which === 'next' ? 1 : 0 });
    return span(which === 'next' ? monday : day(today), monday.plus({ days: 6 }));
  }
  const from = dayNamed(/^(?:the )?week (?:of|commencing|beginning|from) (.+)$/.exec(said)?.[1] ?? '', today);
  return from === null ? null : span(day(from), day(from).plus({ days: 6 }));
}

function lengthOf(said: string, today: string): DaySpan | null {
  const [whole, count = '1', unit = '', start] = LENGTH.exec(said) ?? [];
  if (whole === undefined) return null;
  const from = start === undefined ? today : dayNamed(start, today);
  const name = unit.startsWith('d') ? 'days' : unit.startsWith('w') ? 'weeks' : 'fortnights';
  return from === null ? null : span(day(from), add(day(from), Number(count), name).minus({ days: 1 }));
}

function oneDay(said: string, today: string): DaySpan | null {
  const only = dayNamed(said, today);
  return only === null ? null : { from: only, to: only };
}
