import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { countAt, isPlainName, monthAt, rankAt, unitAt, weekdayAt, yearAt } from './calendar-words.js';
import {
  comingMonth,
  endOfMonth,
  nextWeekday,
  nthWeekday,
  weekdayOfWeek,
  type Day,
} from './day-arithmetic.js';
import { found, longest, type DateRule } from './found-date.js';

const isComma = (tokens: readonly Token[], at: number): boolean => wordAt(tokens, at) === ',';

/** After a weekday: "of this week", "next week", "on/of/in next week". Null where nothing of the kind follows. */
function weekAfter(tokens: readonly Token[], at: number): { weeks: number; length: number } | null {
  let next = isComma(tokens, at) ? at + 1 : at;
  if (/^(of|in|on)$/.test(wordAt(tokens, next))) next += 1;
  const which = wordAt(tokens, next);
  if (!/^(this|next)$/.test(which) || wordAt(tokens, next + 1) !== 'week') return null;
  return { weeks: which === 'next' ? 1 : 0, length: next + 2 - at };
}

/** "Friday", "this Friday", "next Friday", "Friday week", "Friday after next", "Tuesday of next week". */
const namedDay: DateRule = (tokens, at, today) => {
  const lead = wordAt(tokens, at);
  let next = at;
  const coming = lead === 'coming' && /^(this|the)$/.test(wordAt(tokens, at - 1));
  if (/^(this|next)$/.test(lead) || coming) next += 1;
  if (lead === 'this' && wordAt(tokens, next) === 'coming') next += 1;
  const weekday = weekdayAt(tokens, next);
  if (weekday === undefined) return null;
  if (next === at && !isPlainName(tokens[at]) && !stands(tokens, at)) return null;
  if (next === at && wordAt(tokens, at - 1) === 'last') return null;
  next += 1;
  if (
    /^(gone|last|past)$/.test(wordAt(tokens, next)) ||
    /^just gone$/.test(`${wordAt(tokens, next)} ${wordAt(tokens, next + 1)}`)
  )
    return null;
  const near = nextWeekday(today, weekday);
  const after = wordAt(tokens, next);
  if (after === 'week') return found(near.plus({ weeks: 1 }), next + 1 - at);
  if (after === 'fortnight') return found(near.plus({ weeks: 2 }), next + 1 - at);
  if (after === 'after' && wordAt(tokens, next + 1) === 'next')
    return found(near.plus({ weeks: 1 }), next + 2 - at);
  const week = weekAfter(tokens, next);
  if (week !== null) return found(weekdayOfWeek(today, weekday, week.weeks), next + week.length - at);
  if (lead !== 'next') return found(near, next - at);
  const date = weekdayOfWeek(today, weekday, 1);
  return found(date, next - at, date.equals(near));
};

/** "sat" and "sun" are days only where a day is looked for: after a preposition, or alone. */
const stands = (tokens: readonly Token[], at: number): boolean =>
  tokens.length <= 2 || /^(on|by|this|next|for|until|till|before)$/.test(wordAt(tokens, at - 1));

/** "tomorrow week", "today week". */
const weekFromNow: DateRule = (tokens, at, today) => {
  const days = wordAt(tokens, at) === 'tomorrow' ? 1 : wordAt(tokens, at) === 'today' ? 0 : null;
  return days !== null && wordAt(tokens, at + 1) === 'week' ? found(today.plus({ days: days + 7 }), 2) : null;
};

/** "this week Friday", "next week on Friday", "next week Sunday". */
const weekThenDay: DateRule = (tokens, at, today) => {
  const which = wordAt(tokens, at);
  if (!/^(this|next)$/.test(which) || wordAt(tokens, at + 1) !== 'week') return null;
  const on = wordAt(tokens, at + 2) === 'on' ? 1 : 0;
  const weekday = weekdayAt(tokens, at + 2 + on);
  return weekday === undefined
    ? null
    : found(weekdayOfWeek(today, weekday, which === 'next' ? 1 : 0), 3 + on);
};

/** "a week on Tuesday", "week Tuesday", "a fortnight on Friday", "two weeks on Friday". */
const weeksOnDay: DateRule = (tokens, at, today) => {
  const count = countAt(tokens, at) ?? { count: 1, length: 0 };
  const unit = unitAt(tokens, at + count.length);
  if (unit?.unit !== 'weeks' && unit?.unit !== 'fortnights') return null;
  let next = at + count.length + unit.length;
  if (/^(on|from|come)$/.test(wordAt(tokens, next))) next += 1;
  else if (
    count.count > 1 &&
    !/^(today|tomorrow)$/.test(wordAt(tokens, next)) &&
    weekdayAt(tokens, next) === undefined
  )
    return null;
  const weeks = count.count * (unit.unit === 'fortnights' ? 2 : 1);
  if (wordAt(tokens, next) === 'today' && wordAt(tokens, next - 1) !== 'on')
    return found(today.plus({ weeks }), next + 1 - at);
  if (wordAt(tokens, next) === 'tomorrow') return found(today.plus({ weeks, days: 1 }), next + 1 - at);
  if (/^(this|next)$/.test(wordAt(tokens, next))) next += 1;
  const weekday = weekdayAt(tokens, next);
  if (weekday === undefined) return null;
  return found(nextWeekday(today, weekday).plus({ weeks }), next + 1 - at);
};

/** "3 Fridays from now", "two mondays later". */
const countedDays: DateRule = (tokens, at, today) => {
  const count = countAt(tokens, at);
  if (count === undefined) return null;
  const weekday = weekdayAt(tokens, at + count.length);
  const from = at + count.length + 1;
  const tail = /^(later|hence)$/.test(wordAt(tokens, from))
    ? 1
    : wordAt(tokens, from) === 'from' && /^(now|today)$/.test(wordAt(tokens, from + 1))
      ? 2
      : 0;
  if (weekday === undefined || tail === 0) return null;
  return found(nextWeekday(today, weekday).plus({ weeks: count.count - 1 }), from + tail - at);
};

function monthNamed(tokens: readonly Token[], at: number, today: Day): { month: Day; length: number } | null {
  const the = wordAt(tokens, at) === 'the' ? 1 : 0;
  const which = wordAt(tokens, at + the);
  if (/^(next|this)$/.test(which) && wordAt(tokens, at + the + 1) === 'month')
    return { month: today.plus({ months: which === 'next' ? 1 : 0 }), length: the + 2 };
  if (the === 1 && which === 'month') return { month: today, length: 2 };
  const month = monthAt(tokens, at);
  if (month === undefined) return null;
  const year = yearAt(tokens, at + 1);
  return year === undefined
    ? { month: comingMonth(today, month), length: 1 }
    : { month: today.set({ year, month, day: 1 }), length: 2 };
}

/** "the first Tuesday of October", "last Friday in March", "the second Monday of next month". */
const weekdayOfMonth: DateRule = (tokens, at, today) => {
  const the = wordAt(tokens, at) === 'the' ? 1 : 0;
  const nth = rankAt(tokens, at + the);
  const day = wordAt(tokens, at + the + 1) === 'day' && nth === 'last';
  const weekday = weekdayAt(tokens, at + the + 1);
  if (nth === undefined || !/^(of|in)$/.test(wordAt(tokens, at + the + 2))) return null;
  const named = monthNamed(tokens, at + the + 3, today);
  if (named === null || (weekday === undefined && !day)) return null;
  const date = weekday === undefined ? endOfMonth(named.month) : nthWeekday(named.month, weekday, nth);
  return found(date, the + 3 + named.length);
};

/** Days given by their weekday. */
export const weekdayDate: DateRule = longest([
  weekFromNow,
  namedDay,
  weekThenDay,
  weeksOnDay,
  countedDays,
  weekdayOfMonth,
]);
