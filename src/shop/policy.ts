import { z } from 'zod';
import { IANAZone } from 'luxon';
import { holidaysOf } from '../plan/holidays.js';

const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time like 08:30');
const isoDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, 'a date like 2026-03-14');
const days = z.array(z.number().int().min(1).max(7)).min(1, 'at least one weekday, Monday is 1');

function isKnownPlace(place: string): boolean {
  const [country = '', region] = place.split('-');
  return holidaysOf(region === undefined ? { country } : { country, region }).ok;
}

export const calendarSchema = z.object({
  days: days.default([1, 2, 3, 4, 5]),
  hours: z.object({ from: clock, to: clock }).default({ from: '08:00', to: '17:30' }),
  closed: z.array(z.object({ from: isoDate, to: isoDate })).default([]),
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
      askPromiseAfter: z.number().int().positive().default(5),
    })
    .prefault({}),
  supplier: z
    .object({
      checkBefore: z.number().int().positive().default(2),
      /** A check beforehand is worth sending only where the lead time is over so many calendar days. */
      checkWhereLeadOver: z.number().int().nonnegative().default(7),
      chaseAfter: z.number().int().positive().default(1),
      chaseAgainAfter: z.number().int().positive().default(3),
      calendar: calendarSchema.prefault({ hours: { from: '09:00', to: '17:00' } }),
    })
    .prefault({}),
  owner: z
    .object({
      noticeAfterSilence: z.number().int().positive().default(10),
      quiet: z
        .object({
          from: clock.default('20:00'),
          to: clock.default('08:00'),
          days: z.array(z.number().int().min(1).max(7)).default([7]),
        })
        .prefault({}),
      /** Whether notices go to owners by themselves, or wait for the mechanic's tap. */
      noticesGoByThemselves: z.boolean().default(false),
      /** Work that costs so much or more, in major units, waits for the owner's yes; null: none does. */
      yesFrom: z.number().nonnegative().nullable().default(50),
    })
    .prefault({}),
  wantedBy: z.object({ nudgeBefore: z.array(z.number().int().positive()).default([10, 3]) }).prefault({}),
});
export type Policy = z.infer<typeof policySchema>;

export const DEFAULT_POLICY: Policy = policySchema.parse({});
