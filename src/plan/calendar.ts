import { DateTime, IANAZone } from 'luxon';
import { dateOfDay, dayNumber, isoWeekday, type DayNumber, type IsoDate } from './days.js';

export type { IsoDate } from './days.js';

export type Hours = { from: string; to: string };

/** When a shop, a mechanic or a supplier works. All dates and hours are local to `zone`. */
export type WorkingCalendar = {
  /** IANA zone, such as `Europe/London`. */
  zone: string;
  /** ISO weekdays worked, Monday 1 to Sunday 7. */
  days: readonly number[];
  /** `HH:MM`, the end not included; a day's work doesn't cross midnight. */
  hours: Hours;
  /** Closed spells, both ends included. */
  closed: readonly { from: IsoDate; to: IsoDate }[];
  /** Public holidays; a plain set, or rules that know every year (`holidaysOf`). */
  holidays: Pick<ReadonlySet<IsoDate>, 'has'>;
};

/** A calendar that stays shut for this long never opens: the searches below give up there. */
const NEVER_OPENS_AFTER_DAYS = 3660;

const CLOCK = /^([01]\d|2[0-3]):[0-5]\d$/;

/** What is wrong with a calendar, in words, or null. Check it where settings come in. */
export function calendarFault(calendar: WorkingCalendar): string | null {
  const { zone, days, hours, closed } = calendar;
  if (!IANAZone.isValidZone(zone)) return `"${zone}" is not a time zone like Europe/London`;
  if (days.length === 0) return 'no working day in the week';
  const odd = days.find((day) => !Number.isInteger(day) || day < 1 || day > 7);
  if (odd !== undefined) return `${odd} is not a weekday from 1 (Monday) to 7 (Sunday)`;
  if (!CLOCK.test(hours.from) || !CLOCK.test(hours.to)) return 'hours must look like 08:30';
  if (hours.from >= hours.to) return `hours end at ${hours.to}, before they begin at ${hours.from}`;
  const turned = closed.find((spell) => spell.from > spell.to);
  if (turned) return `closed from ${turned.from} to ${turned.to}, which ends before it begins`;
  return null;
}

/** Whether work is done on that date. */
export function isWorkingDay(calendar: WorkingCalendar, date: IsoDate): boolean {
  return works(calendar, dayNumber(date), date);
}

/**
 * The date `n` working days after `date` (before it for a negative `n`). A day off is first rolled to the next
 * working day (the last one, with `roll` 'backward'), so `n = 0` gives that day. The meaning is that of
 * numpy's `busday_offset`. Throws where the calendar never opens.
 */
export function addWorkingDays(
  calendar: WorkingCalendar,
  date: IsoDate,
  n: number,
  roll: 'forward' | 'backward' = 'forward',
): IsoDate {
  let day = seekWorking(calendar, dayNumber(date), roll === 'forward' ? 1 : -1);
  const step = n < 0 ? -1 : 1;
  for (let left = Math.abs(n); left > 0; left -= 1) day = seekWorking(calendar, day + step, step);
  return dateOfDay(day);
}

/**
 * Working days from `from` (included) to `to` (not included); negative when `to` comes first. The meaning is
 * that of numpy's `busday_count`.
 */
export function workingDaysBetween(calendar: WorkingCalendar, from: IsoDate, to: IsoDate): number {
  const first = dayNumber(from);
  const last = dayNumber(to);
  // Turned round, numpy counts the days after `to` up to and with `from`.
  if (last < first) return -countWorking(calendar, last + 1, first + 1);
  return countWorking(calendar, first, last);
}

/** The first working day after `date`. */
export function nextWorkingDay(calendar: WorkingCalendar, date: IsoDate): IsoDate {
  return dateOfDay(seekWorking(calendar, dayNumber(date) + 1, 1));
}

/** The local date in the calendar's zone at an instant. */
export function dateAt(calendar: WorkingCalendar, ms: number): IsoDate {
  return localDate(localTime(calendar, ms));
}

/**
 * The instant at which work starts on a date, in ms; asked of a day off, when it would. A start that falls in
 * the hour which a clock change leaves out is moved on by that hour.
 */
export function startOfWork(calendar: WorkingCalendar, date: IsoDate): number {
  return DateTime.fromISO(`${date}T${calendar.hours.from}`, { zone: calendar.zone }).toMillis();
}

/** Whether an instant lies in the working hours of a working day. */
export function isWithinHours(calendar: WorkingCalendar, ms: number): boolean {
  const local = localTime(calendar, ms);
  const clock = local.toFormat('HH:mm');
  if (clock < calendar.hours.from || clock >= calendar.hours.to) return false;
  return isWorkingDay(calendar, localDate(local));
}

/** The same instant if within hours, else when work next starts, in ms. */
export function nextOpening(calendar: WorkingCalendar, ms: number): number {
  if (isWithinHours(calendar, ms)) return ms;
  const today = dateAt(calendar, ms);
  const opening = startOfWork(calendar, addWorkingDays(calendar, today, 0));
  return opening >= ms ? opening : startOfWork(calendar, nextWorkingDay(calendar, today));
}

function localTime(calendar: WorkingCalendar, ms: number): DateTime {
  return DateTime.fromMillis(ms, { zone: calendar.zone });
}

function localDate(time: DateTime): IsoDate {
  const date = time.toISODate();
  if (date === null) throw new RangeError('no such time in the calendar’s zone');
  return date;
}

/** `isWorkingDay` for a caller that has both forms of the date at hand. */
export function works(calendar: WorkingCalendar, day: DayNumber, date: IsoDate): boolean {
  if (!calendar.days.includes(isoWeekday(day))) return false;
  if (calendar.holidays.has(date)) return false;
  return !calendar.closed.some((spell) => spell.from <= date && date <= spell.to);
}

function seekWorking(calendar: WorkingCalendar, from: DayNumber, step: 1 | -1): DayNumber {
  for (let tried = 0; tried <= NEVER_OPENS_AFTER_DAYS; tried += 1) {
    const day = from + step * tried;
    if (works(calendar, day, dateOfDay(day))) return day;
  }
  throw new RangeError(`the calendar has no working day within ten years of ${dateOfDay(from)}`);
}

function countWorking(calendar: WorkingCalendar, from: DayNumber, to: DayNumber): number {
  let count = 0;
  for (let day = from; day < to; day += 1) if (works(calendar, day, dateOfDay(day))) count += 1;
  return count;
}
