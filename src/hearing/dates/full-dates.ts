import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { dayAt, isPlainName, monthAt, weekdayAt, yearAt } from './calendar-words.js';
import { comingDate, comingDayOfMonth, dayOf, type Day } from './day-arithmetic.js';
import { found, longest, type DateRule, type FoundDate } from './found-date.js';

const isMark = (token: Token | undefined, marks: RegExp): boolean =>
  token?.kind === 'mark' && marks.test(token.text);

/** A joint inside a written date: "8/Oct/2012", "Sep. 6", "April 14, 2015". */
const skip = (tokens: readonly Token[], at: number, marks: RegExp): number =>
  isMark(tokens[at], marks) ? at + 1 : at;

/** "14 March", "June 10 - 31" is no date but a range that goes wrong. */
const rangeFollows = (tokens: readonly Token[], at: number): boolean =>
  isMark(tokens[at], /^[-–]$/) && tokens[at + 1]?.kind === 'number' && yearAt(tokens, at + 1) === undefined;

function withYear(
  tokens: readonly Token[],
  at: number,
  from: number,
  today: Day,
  month: number,
  date: number,
): FoundDate | null {
  const preposition = wordAt(tokens, from) === 'in' ? from + 1 : skip(tokens, from, /^[,/.-]$/);
  const year = yearAt(tokens, preposition);
  if (year !== undefined) return found(dayOf(year, month, date), preposition + 1 - at);
  const short = tokens[from];
  const closing = tokens[from + 1];
  if (short?.kind === 'number' && /^\d\d$/.test(short.text) && closing === undefined)
    return found(dayOf(2000 + Number(short.text), month, date), from + 1 - at);
  if (rangeFollows(tokens, from)) return null;
  // "October. 2": a figure of one or two digits that belongs to a larger number is no day.
  if (isMark(tokens[from], /^[/]$/) && tokens[from + 1]?.kind === 'number') return null;
  return found(comingDate(today, month, date), from - at);
}

/** "[the] 14th [day] [of] March [2026]", "10-Aug-2012", "15 of february". */
const dayThenMonth: DateRule = (tokens, at, today) => {
  let next = wordAt(tokens, at) === 'the' ? at + 1 : at;
  const date = dayAt(tokens, next);
  if (date === undefined) return null;
  next += 1;
  if (wordAt(tokens, next) === 'day') next += 1;
  if (wordAt(tokens, next) === 'of') next += 1;
  next = skip(tokens, next, /^[-/.]$/);
  const month = monthAt(tokens, next);
  if (month === undefined) return null;
  return withYear(tokens, at, next + 1, today, month, date.day);
};

/** "March [the] 14th", "Aug 8", "Oct/2", "April 14, 2015". */
const monthThenDay: DateRule = (tokens, at, today) => {
  const month = monthAt(tokens, at);
  if (month === undefined) return null;
  let next = skip(tokens, at + 1, /^[-/.,]$/);
  if (wordAt(tokens, next) === 'the') next += 1;
  const date = dayAt(tokens, next);
  if (date === undefined || (!date.ordinal && !isPlainName(tokens[at]) && wordAt(tokens, at) === 'may'))
    return null;
  return withYear(tokens, at, next + 1, today, month, date.day);
};

/** "2026 March 14", "2020/23/Sep", "2019-sep-1". */
const yearFirst: DateRule = (tokens, at) => {
  const year = yearAt(tokens, at);
  if (year === undefined) return null;
  const second = skip(tokens, at + 1, /^[-/]$/);
  const third = skip(tokens, second + 1, /^[-/]$/);
  const month = monthAt(tokens, second) ?? monthAt(tokens, third);
  const date = dayAt(tokens, second) ?? dayAt(tokens, third);
  return month === undefined || date === undefined
    ? null
    : found(dayOf(year, month, date.day), third + 1 - at);
};

/** "2026-03-14". */
const isoDate: DateRule = (tokens, at) => {
  const year = yearAt(tokens, at);
  if (year === undefined || !isMark(tokens[at + 1], /^[-/]$/) || !isMark(tokens[at + 3], /^[-/]$/))
    return null;
  const month = dayAt(tokens, at + 2)?.day;
  const date = dayAt(tokens, at + 4)?.day;
  return month === undefined || date === undefined ? null : found(dayOf(year, month, date), 5);
};

/** What is counted off, where a day of the month never stands: "fourth gear", "5th stud". */
const NTH_THING =
  /^(gear|gears|pinion|tooth|teeth|stud|bolt|nut|spring|plate|plates|one|time|attempt|go|hole|kick|try|wheel|cog|fin|spoke|ring|hand|set|pair|turn|speed)$/;

const before = (tokens: readonly Token[], at: number): string => wordAt(tokens, at - 1);
const POINTS_AT_DAY = /^(on|by|before|until|till|for|from|back|due|ready|is|to|not)$/;

/** Words that may follow a date; after any other "3/8" is a size. */
const CLOSES_DATE =
  /^(or|and|for|but|if|at|from|with|please|then|latest|instead|now|he|she|they|to|by|says|said|so|not|is|as|when)$/;

/** "3/4" and "3/4/26", day first. With hyphens, and without a year, only where a date is looked for. */
const numeric: DateRule = (tokens, at, today) => {
  const date = dayAt(tokens, at);
  const joint = tokens[at + 1]?.text ?? '';
  const month = dayAt(tokens, at + 2);
  if (date === undefined || month === undefined || !/^[-/]$/.test(joint)) return null;
  if (date.ordinal || month.ordinal || month.day > 12) return null;
  // A longer run of figures ("123-12-1234", a telephone number) is no date.
  if (isMark(tokens[at - 1], /^[-/.]$/) || tokens[at - 1]?.kind === 'number') return null;
  if (tokens[at + 3]?.text === joint) {
    const text = tokens[at + 4]?.text ?? '';
    if (tokens[at + 5]?.text === joint || !/^\d{2}(\d{2})?$/.test(text)) return null;
    return found(dayOf(text.length === 2 ? 2000 + Number(text) : Number(text), month.day, date.day), 5);
  }
  const alone = tokens.length === 3 || POINTS_AT_DAY.test(before(tokens, at));
  if (tokens[at + 3]?.kind === 'number') return null;
  if (!alone && (joint === '-' || tokens[at + 1]?.before !== '')) return null;
  // "3/8 by 2 inch" is a size.
  if (/^(by|x)$/.test(wordAt(tokens, at + 3)) && tokens[at + 4]?.kind === 'number') return null;
  if (tokens[at + 3]?.kind === 'word' && !CLOSES_DATE.test(wordAt(tokens, at + 3))) return null;
  return found(comingDate(today, month.day, date.day), 3);
};

/** "12.3.26": day, month and year with stops between. */
const stopped: DateRule = (tokens, at) => {
  const [, date, month] = /^(\d{1,2})\.(\d{1,2})$/.exec(tokens[at]?.text ?? '') ?? [];
  const [, year] = /^\.(\d{2}|20\d{2})$/.exec(tokens[at + 1]?.text ?? '') ?? [];
  if (date === undefined || year === undefined || tokens[at + 1]?.before !== '') return null;
  if (tokens.length > 2 && !POINTS_AT_DAY.test(before(tokens, at))) return null;
  return found(dayOf(2000 + (Number(year) % 100), Number(month), Number(date)), 2);
};

/** "the 14th [of this/next month]", "20 of next month", "on 15" at the end. */
const dayOfMonth: DateRule = (tokens, at, today) => {
  const article = wordAt(tokens, at) === 'the';
  const date = dayAt(tokens, at + (article ? 1 : 0));
  if (date === undefined) return null;
  let next = at + (article ? 2 : 1);
  if (wordAt(tokens, next) === 'day') next += 1;
  const of = wordAt(tokens, next) === 'of' ? next + 1 : next;
  const the = wordAt(tokens, of) === 'the' ? of + 1 : of;
  const which = wordAt(tokens, the);
  if (/^(this|next|current)$/.test(which) && wordAt(tokens, the + 1) === 'month') {
    const month = today.plus({ months: which === 'next' ? 1 : 0 });
    return found(dayOf(month.year, month.month, date.day), the + 2 - at);
  }
  if (of > next && the > of && which === 'month')
    return found(comingDayOfMonth(today, date.day), the + 1 - at);
  const figure = tokens[at + (article ? 1 : 0)]?.kind === 'number';
  const pointed =
    /^(on|by|before|until|till|around|not)$/.test(before(tokens, at)) || tokens.length === next - at;
  if (rangeFollows(tokens, at + (article ? 2 : 1))) return null;
  if (date.ordinal && figure && NTH_THING.test(wordAt(tokens, at + (article ? 2 : 1)))) return null;
  if (date.ordinal && figure) return found(comingDayOfMonth(today, date.day), at + (article ? 2 : 1) - at);
  const closing = tokens[at + (article ? 2 : 1)];
  const closed = closing === undefined || closing.kind === 'mark';
  if (article && date.ordinal && pointed && closed) return found(comingDayOfMonth(today, date.day), 2);
  const bareOn = !article && figure && before(tokens, at) === 'on' && closing === undefined;
  return bareOn ? found(comingDayOfMonth(today, date.day), 1) : null;
};

const plainDate = longest([dayThenMonth, monthThenDay, yearFirst, isoDate, numeric, stopped]);

/** "Friday the 14th", "Mon 13th", "Sun, Mar. 6, 2016", "Jul 18, Fri". */
const weekdayAndDate: DateRule = (tokens, at, today) => {
  const weekday = weekdayAt(tokens, at);
  if (weekday !== undefined) {
    const next = skip(tokens, skip(tokens, at + 1, /^[.,]$/), /^[,]$/);
    const full = plainDate(tokens, next, today);
    if (full !== null) return { ...full, length: next - at + full.length };
    const article = wordAt(tokens, next) === 'the' ? 1 : 0;
    const date = dayAt(tokens, next + article);
    if (date?.ordinal !== true) return null;
    return found(comingDayOfMonth(today, date.day, weekday), next + article + 1 - at);
  }
  const full = plainDate(tokens, at, today);
  if (full === null || !isMark(tokens[at + full.length], /^,$/)) return null;
  return weekdayAt(tokens, at + full.length + 1) === full.date.weekday
    ? { ...full, length: full.length + 2 }
    : null;
};

/** Dates given by their day of the month, with or without month and year. */
export const fullDate: DateRule = longest([plainDate, weekdayAndDate, dayOfMonth]);
