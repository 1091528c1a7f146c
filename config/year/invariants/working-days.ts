import Holidays from 'date-holidays';
import { DateTime } from 'luxon';
import { ZONE } from '../../demo/shop-time.js';
import type { ClosedDays } from '../ledger.js';
import { isClosed } from '../ledger.js';

const ENGLAND = new Holidays('GB', 'ENG');
const daysOff = new Map<number, ReadonlySet<string>>();

function daysOffIn(year: number): ReadonlySet<string> {
  const known = daysOff.get(year);
  if (known) return known;
  const found = ENGLAND.getHolidays(year).filter(({ type }) => type === 'public' || type === 'bank');
  const dates = new Set(found.map(({ date }) => date.slice(0, 10)));
  daysOff.set(year, dates);
  return dates;
}

/** Mondays to Fridays, but for the bank holidays of England and days closed. */
export function isWorked(day: DateTime, closed: readonly ClosedDays[] = []): boolean {
  const date = day.toISODate() ?? '';
  return day.weekday <= 5 && !daysOffIn(day.year).has(date) && !isClosed(closed, date);
}

/** The working day so many on from a date (back, where negative); a day off counts as the one it is rolled to. */
export function workedFrom(date: string, count: number, closed: readonly ClosedDays[] = []): string {
  const step = count < 0 ? -1 : 1;
  let day = DateTime.fromISO(date, { zone: ZONE });
  while (!isWorked(day, closed)) day = day.plus({ days: step });
  for (let left = Math.abs(count); left > 0;) {
    day = day.plus({ days: step });
    if (isWorked(day, closed)) left -= 1;
  }
  return day.toISODate() ?? date;
}

/** The first working day after a date. */
export const workedAfter = (date: string, closed: readonly ClosedDays[] = []): string =>
  workedFrom(DateTime.fromISO(date, { zone: ZONE }).plus({ days: 1 }).toISODate() ?? date, 0, closed);
