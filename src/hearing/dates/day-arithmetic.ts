import { DateTime } from 'luxon';
import type { TimeUnit } from './calendar-words.js';

/** Plain calendar days: noon UTC, so that no clock change can move one. */
export type Day = DateTime;

export const day = (iso: string): Day => DateTime.fromISO(`${iso}T12:00:00`, { zone: 'utc' });

/** The date, or null where the calendar has no such day. */
export function dayOf(year: number, month: number, date: number): Day | null {
  const made = DateTime.utc(year, month, date, 12);
  return made.isValid ? made : null;
}

export const isoOf = (date: Day): string => date.toFormat('yyyy-MM-dd');

/** The next such weekday strictly after `from`. */
export const nextWeekday = (from: Day, weekday: number): Day =>
  from.plus({ days: ((weekday - from.weekday + 6) % 7) + 1 });

/** That weekday in the calendar week (Monday to Sunday) `weeks` after the one of `from`. */
export const weekdayOfWeek = (from: Day, weekday: number, weeks: number): Day =>
  from.plus({ weeks, days: weekday - from.weekday });

/** The last working day (Monday to Friday) on or before. */
export const lastWorkingDay = (date: Day): Day =>
  date.weekday > 5 ? date.minus({ days: date.weekday - 5 }) : date;

export const endOfMonth = (date: Day): Day => date.plus({ months: 1 }).set({ day: 1 }).minus({ days: 1 });

/** The first day of that month, this year's where its end is still to come, else next year's. */
export function comingMonth(today: Day, month: number): Day {
  const first = today.set({ month, day: 1 });
  return endOfMonth(first) < today ? first.plus({ years: 1 }) : first;
}

/** Years within which each date comes, 29 February across a century's turn too. */
const EVERY_DATE_WITHIN = 8;
/** Months within which a date falls on each weekday, as good as always. */
const MONTHS_LOOKED_AT = 60;
/** Working days that are counted one by one: years ahead of any restoration. */
const MOST_WORKING_DAYS = 1000;

/** The coming day with that date and month: today counts. */
export function comingDate(today: Day, month: number, date: number): Day | null {
  for (let year = today.year; year <= today.year + EVERY_DATE_WITHIN; year += 1) {
    const made = dayOf(year, month, date);
    if (made !== null && made >= today) return made;
  }
  return null;
}

/** The coming day with that date, in this month or a later one that has it. */
export function comingDayOfMonth(today: Day, date: number, weekday?: number): Day | null {
  for (let months = 0; months <= MONTHS_LOOKED_AT; months += 1) {
    const month = today.set({ day: 1 }).plus({ months });
    const made = dayOf(month.year, month.month, date);
    if (made !== null && made >= today && (weekday === undefined || made.weekday === weekday)) return made;
  }
  return null;
}

/** Friday of the month's nth week; its first week is the one that holds the 4th, as in ISO 8601's rule for years. */
export function fridayOfWeek(month: Day, nth: number | 'last'): Day {
  const anchor =
    nth === 'last' ? endOfMonth(month).minus({ days: 3 }) : month.set({ day: 4 }).plus({ weeks: nth - 1 });
  return weekdayOfWeek(anchor, 5, 0);
}

/** The month's nth such weekday, null where it has no fifth. */
export function nthWeekday(month: Day, weekday: number, nth: number | 'last'): Day | null {
  if (nth === 'last') {
    const end = endOfMonth(month);
    return end.minus({ days: (end.weekday - weekday + 7) % 7 });
  }
  const first = nextWeekday(month.set({ day: 1 }).minus({ days: 1 }), weekday);
  const made = first.plus({ weeks: nth - 1 });
  return made.month === first.month ? made : null;
}

export function add(from: Day, count: number, unit: TimeUnit): Day {
  switch (unit) {
    case 'days':
      return from.plus({ days: Math.round(count) });
    case 'weeks':
      return from.plus({ days: Math.round(count * 7) });
    case 'fortnights':
      return from.plus({ days: Math.round(count * 14) });
    case 'months':
      return from.plus({ months: Math.floor(count), days: Math.round((count % 1) * 30) });
    case 'years':
      return from.plus({ months: Math.round(count * 12) });
    case 'working days': {
      let date = from;
      for (let left = Math.min(Math.round(count), MOST_WORKING_DAYS); left > 0;) {
        date = date.plus({ days: 1 });
        if (date.weekday <= 5) left -= 1;
      }
      return date;
    }
  }
}
