import { DateTime } from 'luxon';
import { ZONE } from '../demo/shop-time.js';

/** A date so many weekdays on, or back. */
export function workday(from: string, days: number): string {
  let at = DateTime.fromISO(from);
  for (let left = Math.abs(days); left > 0;) {
    at = at.plus({ days: Math.sign(days) });
    if (at.weekday <= 5) left -= 1;
  }
  return at.toISODate() ?? from;
}

/** 'Wed 4 March', as a date is written in the chat. */
export const spokenDay = (date: string): string =>
  DateTime.fromISO(date).setLocale('en-GB').toFormat('ccc d MMMM');

/** '4 March', as people say a date. */
export const spoken = (date: string): string => DateTime.fromISO(date).toFormat('d MMMM');

export const dayAfter = (day: string, days: number): string =>
  DateTime.fromISO(day).plus({ days }).toISODate() ?? day;

/** Days of a stretch on whose night the clocks changed. */
export function clockChanges(from: string, days: number): string[] {
  return Array.from({ length: days }, (_, ahead) => dayAfter(from, ahead)).filter((day) => {
    const at = DateTime.fromISO(day, { zone: ZONE });
    return at.offset !== at.plus({ days: 1 }).offset;
  });
}
