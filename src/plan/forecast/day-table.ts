import { works, type WorkingCalendar } from '../calendar.js';
import { dateOfDay, dayNumber, type DayNumber, type IsoDate } from '../days.js';

/**
 * Time in a forecast is a whole number of ticks since its first day, this many to a day. On a working day the ticks
 * share out the working hours; a day off has but its first.
 */
export const TICKS = 64;
const TICK_BITS = 6;
const TICK_MASK = TICKS - 1;

/** A calendar as tables over the days of a forecast, to add working time without a loop. */
export type DayTable = {
  /** Working ticks before each day. */
  worked: Int32Array;
  /** All ones of a tick on a working day, 0 on a day off. */
  mask: Int32Array;
  /** The day, in ticks, of each working day by its number. */
  start: Int32Array;
  /** Working ticks in the whole table; later times are cut to its end. */
  most: number;
};

/** The dates of the days from `first` on. */
export function datesFrom(first: DayNumber, days: number): IsoDate[] {
  return Array.from({ length: days }, (_, k) => dateOfDay(first + k));
}

const tables = new WeakMap<WorkingCalendar, { first: IsoDate; days: number; table: DayTable }>();

/**
 * The table of a calendar over these dates; it has no working days where the calendar has none. Kept for as long
 * as the calendar is, since a shop forecasts many jobs on the same few.
 */
export function dayTable(calendar: WorkingCalendar, dates: readonly IsoDate[]): DayTable {
  const first = dates[0] ?? '';
  const known = tables.get(calendar);
  if (known?.first === first && known.days === dates.length) return known.table;
  const table = makeTable(calendar, dates);
  tables.set(calendar, { first, days: dates.length, table });
  return table;
}

function makeTable(calendar: WorkingCalendar, dates: readonly IsoDate[]): DayTable {
  const worked = new Int32Array(dates.length);
  const mask = new Int32Array(dates.length);
  const start: number[] = [];
  const first = dayNumber(dates[0] ?? '1970-01-01');
  dates.forEach((date, day) => {
    worked[day] = start.length * TICKS;
    if (!works(calendar, first + day, date)) return;
    mask[day] = TICK_MASK;
    start.push(day * TICKS);
  });
  return { worked, mask, start: Int32Array.from(start), most: Math.max(0, start.length * TICKS - 1) };
}

/** The time after `length` working ticks from `time` on, all in ticks. */
export function addWorked(table: DayTable, time: number, length: number): number {
  const day = time >> TICK_BITS;
  const last = table.worked.length - 1;
  const at = Math.min(day, last);
  const total = (table.worked[at] ?? 0) + (time & (table.mask[at] ?? 0)) + length;
  const cut = total > table.most ? table.most : total;
  return (table.start[cut >> TICK_BITS] ?? 0) + (cut & TICK_MASK);
}

/**
 * `addWorked` for a row of runs: finish[from + r] from begin[from + r] and length[from + r]. With `whole` 1 the end is
 * the last tick worked and one more, so that work done by Friday's end isn't done on Monday; its lengths are at
 * least 1. With 0, what is back at Friday's end is back on Monday.
 */
export function addWorkedRow(
  table: DayTable,
  begin: Int32Array,
  length: Int32Array,
  finish: Int32Array,
  from: number,
  runs: number,
  whole: 0 | 1,
): void {
  const { worked, mask, start, most } = table;
  const last = worked.length - 1;
  for (let k = from; k < from + runs; k += 1) {
    const time = begin[k] as number;
    let day = time >> TICK_BITS;
    if (day > last) day = last;
    let total = (worked[day] as number) + (time & (mask[day] as number)) + (length[k] as number) - whole;
    if (total > most) total = most;
    finish[k] = (start[total >> TICK_BITS] as number) + (total & TICK_MASK) + whole;
  }
}
