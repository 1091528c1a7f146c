import { works, type WorkingCalendar } from '../calendar.js';
import { dateOfDay, dayNumber, type IsoDate } from '../days.js';

/** The days on which the shop is open and somebody is in it, laid end to end from today on. */
export type BenchLine = {
  /** Half hours of bench time in one of its days. */
  halfHoursADay: number;
  /** The date of its nth day, from 0. Throws where nobody is in for ten years. */
  dateOf: (day: number) => IsoDate;
  /** The first half hour of a date, or of the line's next day where that is none; a date that is past is now. */
  halfHourOf: (date: IsoDate) => number;
  /** Whether a mechanic is in on its nth day; mechanics by their place. */
  isIn: (mechanic: number, day: number) => boolean;
  /** How many mechanics are in on its nth day. */
  handsOn: (day: number) => number;
};

const NOBODY_AFTER_DAYS = 3660;

/** Lays out the working days of a shop whose mechanics have days off of their own. */
export function benchLine(
  today: IsoDate,
  shop: WorkingCalendar,
  mechanics: readonly WorkingCalendar[],
  halfHoursADay: number,
): BenchLine {
  const dates: IsoDate[] = [];
  const present: boolean[][] = [];
  let next = dayNumber(today);

  function addDay(): void {
    for (let tried = 0; tried <= NOBODY_AFTER_DAYS; tried += 1) {
      const day = next;
      const date = dateOfDay(day);
      next += 1;
      if (!works(shop, day, date)) continue;
      const here = mechanics.map((calendar) => calendar === shop || works(calendar, day, date));
      if (!here.includes(true)) continue;
      dates.push(date);
      present.push(here);
      return;
    }
    throw new RangeError(`nobody is in the shop for ten years after ${dates.at(-1) ?? today}`);
  }

  function hereOn(day: number): readonly boolean[] {
    while (present.length <= day) addDay();
    return present[day] ?? [];
  }

  function firstNotBefore(date: IsoDate): number {
    while ((dates.at(-1) ?? '') < date) addDay();
    let low = 0;
    let high = dates.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((dates[middle] ?? '') < date) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  return {
    halfHoursADay,
    dateOf: (day) => {
      hereOn(day);
      return dates[day] ?? today;
    },
    halfHourOf: (date) => firstNotBefore(date) * halfHoursADay,
    isIn: (mechanic, day) => hereOn(day)[mechanic] ?? false,
    handsOn: (day) => hereOn(day).filter(Boolean).length,
  };
}
