import { z } from 'zod';
import type { Doubt } from './sureness/doubts.js';
import { PLACES } from '../trade/terms.js';

const named = z.object({ name: z.string().min(1), also: z.array(z.string().min(1)).optional() });

/** What the shop's record knows that helps to understand a message. */
export const knownSchema = z.object({
  suppliers: z.array(named).default([]),
  machines: z.array(named).default([]),
  owners: z.array(named).optional(),
  items: z
    .array(
      z.object({
        item: z.number().int().positive(),
        part: z.string().min(1),
        place: z.array(z.enum(PLACES)).default([]),
        machine: z.string().optional(),
        supplier: z.string().optional(),
      }),
    )
    .default([]),
  /** Learnt words of the shop: what is said, and the part that is meant. */
  words: z.array(z.object({ said: z.string().min(1), part: z.string().min(1) })).optional(),
  /** The item last spoken of, for "same with the other side" and the like. */
  last: z
    .object({
      part: z.string().min(1),
      place: z.array(z.enum(PLACES)).default([]),
      item: z.number().int().positive().optional(),
    })
    .optional(),
});
export type Known = z.infer<typeof knownSchema>;

/** Who listens, and when: everything a reading depends on besides the text. */
export type Listener = {
  /** The day the message was written, in the shop's zone: YYYY-MM-DD. */
  today: string;
  /** The text comes from a speech recogniser. (Default: false) */
  spoken?: boolean;
  /** Stretches of the text that a recogniser was not sure of: what hangs on them is marked unsure. (Default: none) */
  doubts?: readonly Doubt[];
  known?: Known;
};
