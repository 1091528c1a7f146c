import { DateTime } from 'luxon';

/** The zone of the rehearsed shop, as its file has it. */
export const ZONE = 'Europe/London';

/** The instant of a local day and time of the shop, Unix milliseconds. */
export const instant = (day: string, time: string): number =>
  DateTime.fromISO(`${day}T${time}`, { zone: ZONE }).toMillis();

/** The shop's local day of an instant. */
export const dateOf = (at: number): string => DateTime.fromMillis(at, { zone: ZONE }).toISODate() ?? '';
