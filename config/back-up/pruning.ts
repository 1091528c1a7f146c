import { DateTime } from 'luxon';

const DAILY = 7;
const WEEKLY = 4;

/**
 * The days whose back-ups have had their time: the newest seven are kept, and of those before them the newest of each
 * of the last four weeks (Monday to Sunday) that have one.
 */
export function outlived(days: readonly string[]): string[] {
  const newestFirst = [...new Set(days)].sort().reverse();
  const older = newestFirst.slice(DAILY);
  const weekly = older.filter((day, index) => index === 0 || weekOf(day) !== weekOf(older[index - 1] ?? ''));
  const kept = new Set(weekly.slice(0, WEEKLY));
  return older.filter((day) => !kept.has(day));
}

/** The week of a date by ISO 8601, as `2026-W10`. */
function weekOf(day: string): string {
  return DateTime.fromISO(day, { zone: 'utc' }).toFormat("kkkk-'W'WW");
}
