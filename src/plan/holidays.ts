import Holidays from 'date-holidays';
import { dateOfDay, dayNumber, type IsoDate } from './days.js';

/** A country by its two letters (ISO 3166-1), and its state, nation or region where holidays differ. */
export type HolidayPlace = { country: string; region?: string };

/** The shop's own corrections, for a day proclaimed after the library was made. */
export type HolidayChanges = { also?: readonly IsoDate[]; except?: readonly IsoDate[] };

export type PublicHolidays = { has(date: IsoDate): boolean };

export type HolidaysFound = { ok: true; holidays: PublicHolidays } | { ok: false; reason: string };

const DAY_MS = 86_400_000;

/** Days proclaimed for one occasion which date-holidays 3.37 lacks. */
const PROCLAIMED: Readonly<Record<string, readonly IsoDate[]>> = {
  // Scotland's day for the football World Cup: GOV.UK bank holidays, 24/11/2025, Open Government Licence v3.0.
  'GB-SCT': ['2026-06-15'],
};

/**
 * Public and bank holidays of a country or region, for any year, by the library date-holidays (ISC; its data
 * CC BY 3.0). Refused, with the reason, for a place that it doesn't know.
 *
 * The library takes 45 MB of disk and some 20 MB of memory. It is used all the same: it knows some two hundred
 * countries by rule, so no year comes without holidays, which a list in the shop file would bring about at its
 * end. Against GOV.UK's three divisions for 2019-2028 it lacks a single day, which is added here; a
 * proclamation to come goes into the shop file as `also`.
 */
export function holidaysOf(place: HolidayPlace, changes: HolidayChanges = {}): HolidaysFound {
  const unknown = unknownPlace(place);
  if (unknown !== null) return { ok: false, reason: unknown };
  const { country, region } = place;
  const rules = region === undefined ? new Holidays(country) : new Holidays(country, region);
  const also = new Set([...(PROCLAIMED[`${country}-${region ?? ''}`] ?? []), ...(changes.also ?? [])]);
  const except = new Set(changes.except ?? []);
  const years = new Map<string, ReadonlySet<IsoDate>>();
  const inYear = (year: string): ReadonlySet<IsoDate> => {
    const known = years.get(year) ?? daysOff(rules, Number(year));
    years.set(year, known);
    return known;
  };
  const has = (date: IsoDate): boolean =>
    !except.has(date) && (also.has(date) || inYear(date.slice(0, 4)).has(date));
  return { ok: true, holidays: { has } };
}

/** For a shop that keeps no public holidays. */
export const NO_HOLIDAYS: PublicHolidays = { has: () => false };

function unknownPlace({ country, region }: HolidayPlace): string | null {
  const library = new Holidays();
  if (!(country in library.getCountries())) {
    return `no public holidays known for "${country}"; a country is two letters, such as GB`;
  }
  if (region === undefined) return null;
  // The library's types promise an object; a country without regions gives undefined.
  const states: Record<string, string> | undefined = library.getStates(country);
  const regions = Object.keys(states ?? {});
  if (regions.includes(region)) return null;
  const choice = regions.length > 0 ? `one of ${regions.join(', ')}` : 'left out';
  return `no region "${region}" known in ${country}; it should be ${choice}`;
}

function daysOff(rules: Holidays, year: number): ReadonlySet<IsoDate> {
  const dates = new Set<IsoDate>();
  for (const holiday of rules.getHolidays(year)) {
    if (holiday.type !== 'public' && holiday.type !== 'bank') continue;
    // Part of a day (a bank shut from noon on Christmas Eve) is still worked.
    if (holiday.date.slice(11, 19) !== '00:00:00') continue;
    const length = Math.max(1, Math.round((holiday.end.getTime() - holiday.start.getTime()) / DAY_MS));
    const first = dayNumber(holiday.date.slice(0, 10));
    for (let day = first; day < first + length; day += 1) dates.add(dateOfDay(day));
  }
  return dates;
}
