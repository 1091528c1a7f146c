import type { Token } from '../text/tokens.js';
import { wordAt, wordsBefore } from '../text/word-at.js';
import { countAt, isPlainName, monthAt, rankAt, unitAt, weekdayAt, yearAt } from './calendar-words.js';
import {
  add,
  comingMonth,
  endOfMonth,
  fridayOfWeek,
  lastWorkingDay,
  nextWeekday,
  weekdayOfWeek,
  type Day,
} from './day-arithmetic.js';
import { found, longest, type DateRule } from './found-date.js';
import { fullDate } from './full-dates.js';
import { weekdayDate } from './weekdays.js';

type Length = { to: (from: Day) => Day; length: number; range: boolean; bare: boolean };

/** "three weeks", "2 weeks 3 days", "a fortnight", "a couple of months", "six to eight weeks". */
function timeLength(tokens: readonly Token[], at: number): Length | null {
  const count =
    countAt(tokens, at) ??
    (wordAt(tokens, at) === 'fortnight' ||
    (wordAt(tokens, at - 1) === 'another' && unitAt(tokens, at) !== undefined)
      ? { count: 1, length: 0, range: false }
      : undefined);
  if (count === undefined) return null;
  const unit = unitAt(tokens, at + count.length);
  if (unit === undefined) return null;
  const length = count.length + unit.length;
  const and = wordAt(tokens, at + length) === 'and' ? 1 : 0;
  const half = wordAt(tokens, at + length + and) === 'a' && wordAt(tokens, at + length + and + 1) === 'half';
  if (half)
    return {
      to: (from) => add(from, count.count + 0.5, unit.unit),
      length: length + and + 2,
      range: false,
      bare: false,
    };
  const rest = tokens[at + length + and]?.kind === 'number' ? timeLength(tokens, at + length + and) : null;
  if (rest !== null)
    return {
      to: (from) => rest.to(add(from, count.count, unit.unit)),
      length: length + and + rest.length,
      range: rest.range,
      bare: false,
    };
  const bare = /^(a|an|one)$/.test(wordAt(tokens, at)) && unit.unit !== 'fortnights';
  return { to: (from) => add(from, count.count, unit.unit), length, range: count.range, bare };
}

/** "today", "tomorrow", "the day after tomorrow", "tonight". */
const nearDay: DateRule = (tokens, at, today) => {
  const word = wordAt(tokens, at);
  if (/^(today|tonight)$/.test(word)) return found(today, 1);
  if (/^(tomorrow|tmrw|tomoz|tomorow|tommorow|tommorrow)$/.test(word))
    return found(today.plus({ days: 1 }), 1);
  const the = word === 'the' ? 1 : 0;
  if (
    wordAt(tokens, at + the) === 'day' &&
    wordAt(tokens, at + the + 1) === 'after' &&
    /^(tomorrow|tmrw)$/.test(wordAt(tokens, at + the + 2))
  )
    return found(today.plus({ days: 2 }), the + 3);
  return null;
};

const anchor = longest([fullDate, weekdayDate, nearDay]);

/** What a length counts from: "from now", "from Tuesday", "after 14 March", "later", "'s time". */
function counted(tokens: readonly Token[], at: number, today: Day): { from: Day; length: number } | null {
  const word = wordAt(tokens, at);
  if (/^(later|hence)$/.test(word)) return { from: today, length: 1 };
  if (/^('s|')$/.test(word) && wordAt(tokens, at + 1) === 'time') return { from: today, length: 2 };
  if (word === 'time') return { from: today, length: 1 };
  if (!/^(from|after)$/.test(word)) return null;
  if (wordAt(tokens, at + 1) === 'now') return { from: today, length: 2 };
  const date = anchor(tokens, at + 1, today);
  return date === null ? null : { from: date.date, length: 1 + date.length };
}

const PAST = /^(ago|old|since|back|now|late|overdue)$/;
const PAST_BEFORE = /^(past|last|been|took|taken|for|after|every|another)$/;

/** "in three weeks", "within 10 days", "six weeks", "two weeks from Friday", "next 2 weeks". */
const span: DateRule = (tokens, at, today) => {
  const lead = wordAt(tokens, at);
  const led = /^(in|within|next|about)$/.test(lead) ? 1 : 0;
  const about = /^(about|around|roughly|another)$/.test(wordAt(tokens, at + led)) ? 1 : 0;
  const length = timeLength(tokens, at + led + about);
  if (length === null) return null;
  const end = at + led + about + length.length;
  const from = counted(tokens, end, today);
  if (from !== null) {
    const total = end + from.length - at;
    const date = length.to(from.from);
    const onDay = wordAt(tokens, at + total) === 'on' ? weekdayAt(tokens, at + total + 1) : undefined;
    if (onDay !== undefined) return found(nextWeekday(date.minus({ days: 1 }), onDay), total + 2, false);
    return found(date, total, !length.range);
  }
  if (PAST.test(wordAt(tokens, end))) return null;
  if (led === 0 && length.bare && wordAt(tokens, at - 1) === 'back')
    return found(length.to(today), end - at, false);
  // "gonna be a month", "say a week"
  const told = /^(be|take|takes|say|says|said|reckons?|another|about|least|only)$/.test(
    wordAt(tokens, at - 1),
  );
  if (led === 0 && length.bare && told) return found(length.to(today), end - at, false);
  // "he's had the levers three weeks" looks back.
  const back = wordsBefore(tokens, at, 8).join(' ');
  if (
    led === 0 &&
    /\b(has|have|'s|'ve) (had|been (there|at|with|away|gone|sat|waiting|in))\b[^.,;]*$/.test(back)
  )
    return null;
  if (led === 0 && (length.bare || PAST_BEFORE.test(wordAt(tokens, at - 1)))) return null;
  return found(length.to(today), end - at, !length.range);
};

/** "Monday two weeks from now", "Saturday 3 days from now": that weekday of the week reached. */
const dayThenSpan: DateRule = (tokens, at, today) => {
  const weekday = weekdayAt(tokens, at);
  if (weekday === undefined) return null;
  const reached = span(tokens, at + 1, today);
  if (reached === null || counted(tokens, at + 1 + reached.length - 2, today) === null) return null;
  return found(weekdayOfWeek(reached.date, weekday, 0), 1 + reached.length);
};

type Period = { week: Day } | { month: Day } | { year: Day };

/** A week, month or year as a whole: "the week", "next month", "March", "this year". */
function periodAt(
  tokens: readonly Token[],
  at: number,
  today: Day,
): { period: Period; length: number } | null {
  const which = wordAt(tokens, at);
  const noun = wordAt(tokens, at + 1);
  if (/^(this|next|the)$/.test(which)) {
    const ahead = which === 'next' ? 1 : 0;
    if (noun === 'week') return { period: { week: today.plus({ weeks: ahead }) }, length: 2 };
    if (noun === 'month')
      return { period: { month: today.set({ day: 1 }).plus({ months: ahead }) }, length: 2 };
    if (noun === 'year') return { period: { year: today.plus({ years: ahead }) }, length: 2 };
  }
  const month = monthAt(tokens, at);
  if (month === undefined) return null;
  const year = yearAt(tokens, at + 1);
  return year === undefined
    ? { period: { month: comingMonth(today, month) }, length: 1 }
    : { period: { month: today.set({ year, month, day: 1 }) }, length: 2 };
}

function edgeOf(period: Period, edge: 'start' | 'middle' | 'end'): Day {
  if ('week' in period)
    return weekdayOfWeek(period.week, edge === 'start' ? 1 : edge === 'middle' ? 3 : 5, 0);
  if ('month' in period)
    return edge === 'start'
      ? period.month.set({ day: 1 })
      : edge === 'middle'
        ? period.month.set({ day: 15 })
        : endOfMonth(period.month);
  return period.year.set(
    edge === 'start'
      ? { month: 1, day: 1 }
      : edge === 'middle'
        ? { month: 6, day: 30 }
        : { month: 12, day: 31 },
  );
}

/** "the end of next month", "start of March", "mid April", "middle of next week". */
const edge: DateRule = (tokens, at, today) => {
  let next = wordAt(tokens, at) === 'the' ? at + 1 : at;
  const word = wordAt(tokens, next);
  const kind = /^(end|back)$/.test(word)
    ? 'end'
    : /^(start|beginning|early)$/.test(word)
      ? 'start'
      : /^(mid|middle)$/.test(word)
        ? 'middle'
        : null;
  if (kind === null) return null;
  next += 1;
  if (word === 'back' && wordAt(tokens, next) === 'end') next += 1;
  else if (word === 'back') return null;
  if (wordAt(tokens, next) === 'of') next += 1;
  const named = periodAt(tokens, next, today);
  return named === null ? null : found(edgeOf(named.period, kind), next + named.length - at, kind === 'end');
};

/** "the first week of March", "last week in May", "second week of next month". */
const weekOfMonth: DateRule = (tokens, at, today) => {
  const the = wordAt(tokens, at) === 'the' ? 1 : 0;
  const nth = rankAt(tokens, at + the);
  if (
    nth === undefined ||
    wordAt(tokens, at + the + 1) !== 'week' ||
    !/^(of|in)$/.test(wordAt(tokens, at + the + 2))
  )
    return null;
  const named = periodAt(tokens, at + the + 3, today);
  if (named === null || !('month' in named.period)) return null;
  let friday = fridayOfWeek(named.period.month, nth);
  if (friday < today) friday = fridayOfWeek(named.period.month.plus({ years: 1 }), nth);
  return found(friday, the + 3 + named.length);
};

/** "week commencing the 9th", "week of the 9th": that week's last working day. */
const weekOfDay: DateRule = (tokens, at, today) => {
  if (
    wordAt(tokens, at) !== 'week' ||
    !/^(commencing|beginning|starting|of|ending)$/.test(wordAt(tokens, at + 1))
  )
    return null;
  const date = anchor(tokens, at + 2, today);
  if (date === null) return null;
  return found(weekdayOfWeek(date.date, 5, 0), 2 + date.length);
};

/** "in March", "next week", "this month" alone: its last working day. */
const wholePeriod: DateRule = (tokens, at, today) => {
  if (/^(last|past)$/.test(wordAt(tokens, at - 1))) return null;
  const led = /^(in|during|by|for|until|till|before|sometime)$/.test(wordAt(tokens, at - 1));
  const named = periodAt(tokens, at, today);
  if (named === null || wordAt(tokens, at) === 'the') return null;
  // "third one this year"
  if ('year' in named.period && wordAt(tokens, at) === 'this' && !led) return null;
  if (
    monthAt(tokens, at) !== undefined &&
    (!led || (!isPlainName(tokens[at]) && !/^(in|by|until|till|before|during)$/.test(wordAt(tokens, at - 1))))
  )
    return null;
  return found(lastWorkingDay(edgeOf(named.period, 'end')), named.length);
};

/** Dates given by a length of time or a whole week or month. */
export const spanDate: DateRule = longest([
  nearDay,
  span,
  dayThenSpan,
  edge,
  weekOfMonth,
  weekOfDay,
  wholePeriod,
]);
