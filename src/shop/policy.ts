import { z } from 'zod';
import { IANAZone } from 'luxon';
import { holidaysOf } from '../plan/holidays.js';

const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time like 08:30');
const isoDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, 'a date like 2026-03-14');
/** A count of days beyond a year is a slip, and would be counted through day by day. */
const count = z.number().int().positive().max(366, 'at most 366 days');
const days = z.array(z.number().int().min(1).max(7)).min(1, 'at least one weekday, Monday is 1');

const YEAR_MS = 366 * 24 * 3_600_000;
/** A spell that never ended would leave no day for anything to be due on. */
const spell = z
  .object({ from: isoDate, to: isoDate })
  .refine(({ from, to }) => from <= to, 'a first day that is not after the last')
  .refine(({ from, to }) => Date.parse(to) - Date.parse(from) <= YEAR_MS, 'a year closed at most');

function isKnownPlace(place: string): boolean {
  const [country = '', region] = place.split('-');
  return holidaysOf(region === undefined ? { country } : { country, region }).ok;
}

export const calendarSchema = z.object({
  days: days.default([1, 2, 3, 4, 5]),
  hours: z
    .object({ from: clock, to: clock })
    .refine(({ from, to }) => from < to, 'hours that begin before they end')
    .default({ from: '08:00', to: '17:30' }),
  closed: z.array(spell).default([]),
  /** Country and region whose public holidays are kept, such as `GB-ENG`; null: none. */
  region: z
    .string()
    .refine(isKnownPlace, 'a country, or country and region, such as GB-ENG')
    .nullable()
    .default('GB-ENG'),
});
export type CalendarSettings = z.infer<typeof calendarSchema>;

/** The shop's house policies: every default of the design in one place. Days are working days of whoever is meant. */
export const policySchema = z.object({
  name: z.string().min(1).default('The workshop'),
  zone: z
    .string()
    .refine((zone) => IANAZone.isValidZone(zone), 'a time zone like Europe/London')
    .default('Europe/London'),
  currency: z.string().length(3).default('GBP'),
  calendar: calendarSchema.prefault({}),
  mechanic: z
    .object({
      roundUpAt: clock.default('07:45'),
      /** Things out without any promise are asked about after so many days. */
      askPromiseAfter: count.default(5),
    })
    .prefault({}),
  supplier: z
    .object({
      checkBefore: count.default(2),
      /** A check beforehand is worth sending only where the lead time is over so many calendar days. */
      checkWhereLeadOver: z.number().int().nonnegative().max(366, 'at most 366 days').default(7),
      chaseAfter: count.default(1),
      chaseAgainAfter: count.default(3),
      calendar: calendarSchema.prefault({ hours: { from: '09:00', to: '17:00' } }),
    })
    .prefault({}),
  owner: z
    .object({
      noticeAfterSilence: count.default(10),
      quiet: z
        .object({
          from: clock.default('20:00'),
          to: clock.default('08:00'),
          days: z.array(z.number().int().min(1).max(7)).max(6, 'a day of the week to write on').default([7]),
        })
        .prefault({}),
      /** Whether notices go to owners by themselves, or wait for the mechanic's tap. */
      noticesGoByThemselves: z.boolean().default(false),
      /** Work that costs so much or more, in major units, waits for the owner's yes; null: none does. */
      yesFrom: z.number().nonnegative().nullable().default(50),
    })
    .prefault({}),
  bench: z
    .object({
      /** Hours of a mechanic's day at the bench, telephone, deliveries and tea apart. */
      hoursADay: z.number().positive().max(16, 'at most 16 hours').default(5),
      /** What there is only so many of, and work is planned at. */
      stations: z
        .record(z.string().min(1).max(40), z.number().int().positive().max(50))
        .default({ lift: 1, lathe: 1, 'parts washer': 1 }),
      /** How much more a day late weighs for each month that a machine has been in; 0: all machines weigh the same. */
      waitingCounts: z.number().nonnegative().max(10, 'at most 10').default(0.1),
    })
    .prefault({}),
  wantedBy: z.object({ nudgeBefore: z.array(count).default([10, 3]) }).prefault({}),
});
export type Policy = z.infer<typeof policySchema>;

export const DEFAULT_POLICY: Policy = policySchema.parse({});
