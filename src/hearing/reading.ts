import { z } from 'zod';
import type { Act } from '../trade/terms.js';
import { ACTS, CONDITIONS, GATES, PLACES, PROCESSES, QUANTITIES, REMEDIES } from '../trade/terms.js';

export { ACTS };
export type { Act };

/** `all`, `part`, `refused` of what came back; `pass`, `fail` of a test; `yes`, `no`, `talk` of an owner's answer. */
export const OUTCOMES = ['all', 'part', 'refused', 'pass', 'fail', 'yes', 'no', 'talk'] as const;
export type Outcome = (typeof OUTCOMES)[number];

export const QUESTION_TOPICS = [
  'blocking',
  'where',
  'ready',
  'overdue',
  'cost',
  'next',
  'agreed',
  'history',
  'holding',
  'findings',
  'photos',
] as const;
export type QuestionTopic = (typeof QUESTION_TOPICS)[number];

export const CURRENCIES = ['GBP', 'EUR', 'USD'] as const;
export type Currency = (typeof CURRENCIES)[number];

/** A sum as said, in major units (pounds, not pence). */
export const costSchema = z.object({
  amount: z.number().nonnegative(),
  currency: z.enum(CURRENCIES),
  /** Said roughly ("about", "twenty-odd"), or the upper figure of a range. */
  about: z.boolean(),
  /** Per piece. */
  each: z.boolean(),
  vat: z.enum(['plus', 'including']).nullable(),
});
export type Cost = z.infer<typeof costSchema>;

/** One measured value in the unit it was said in. */
export const measuredSchema = z.object({
  quantity: z.enum(QUANTITIES),
  value: z.number(),
  unit: z.string(),
});
export type Measured = z.infer<typeof measuredSchema>;

export const itemReadingSchema = z.object({
  act: z.enum(ACTS),
  /** Only where the message moves to another job than the reading's own machine. */
  machine: z.string().optional(),
  item: z.number().int().positive().nullable(),
  part: z.string().nullable(),
  count: z.number().nullable(),
  place: z.array(z.enum(PLACES)),
  conditions: z.array(z.enum(CONDITIONS)),
  remedy: z.enum(REMEDIES).nullable(),
  processes: z.array(z.enum(PROCESSES)),
  supplier: z.string().nullable(),
  stored: z.string().nullable(),
  outcome: z.enum(OUTCOMES).nullable(),
  cost: costSchema.nullable(),
  due: z.iso.date().nullable(),
  readings: z.array(measuredSchema),
  /** Names of this item's fields that the bot should ask about. */
  unsure: z.array(z.string()),
});
export type ItemReading = z.infer<typeof itemReadingSchema>;

export const questionSchema = z.object({
  about: z.enum(QUESTION_TOPICS),
  gate: z.enum(GATES).nullable(),
  part: z.string().nullable(),
  supplier: z.string().nullable(),
});
export type Question = z.infer<typeof questionSchema>;

/** One message from the bench as read. Lists are in the order said. */
export const readingSchema = z.object({
  text: z.string(),
  /** The text after dictation repair, number words turned into figures. */
  heard: z.string(),
  /** That of the first item; `note` where there is none. */
  act: z.enum(ACTS),
  machine: z.string().nullable(),
  items: z.array(itemReadingSchema),
  question: questionSchema.nullable(),
});
export type Reading = z.infer<typeof readingSchema>;
