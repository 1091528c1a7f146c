import { DateTime } from 'luxon';

/** A local calendar date, `YYYY-MM-DD`. */
export type IsoDate = string;

/** A calendar date as a count of days since 1970-01-01; no zone, no time of day. */
export type DayNumber = number;

const DAY_MS = 86_400_000;

/** The day number of a date. Throws on a text that is no calendar date. */
export function dayNumber(date: IsoDate): DayNumber {
  const parsed = DateTime.fromISO(date, { zone: 'utc' });
  if (!parsed.isValid || date.length !== 10) throw new RangeError(`"${date}" is not a date like 2026-03-14`);
  return parsed.toMillis() / DAY_MS;
}

/** The date of a day number. */
export function dateOfDay(day: DayNumber): IsoDate {
  const text = DateTime.fromMillis(day * DAY_MS, { zone: 'utc' }).toISODate();
  if (text === null) throw new RangeError(`${day} is not a day`);
  return text;
}

/** ISO weekday of a day number: Monday 1 to Sunday 7 (1970-01-01 was a Thursday). */
export function isoWeekday(day: DayNumber): number {
  return ((((day + 3) % 7) + 7) % 7) + 1;
}
