import { z } from 'zod';
import { PROCESSES } from '../trade/terms.js';
import { calendarSchema } from './policy.js';

export const ROLES = ['mechanic', 'owner', 'supplier'] as const;
export type Role = (typeof ROLES)[number];

const person = z.string().min(1);
const role = z.enum(ROLES);

/** What each event of the shop's own stream holds. Names, numbers and chats are people's data, kept apart by id. */
export const shopEventSchemas = {
  'person-added': z.object({ person, role }),
  'supplier-described': z.object({
    supplier: person,
    processes: z.array(z.enum(PROCESSES)),
    /** Trades as they are called at the bench, such as `plater`. */
    trades: z.array(z.string()),
  }),
  'job-registered': z.object({ job: z.string().min(1), title: z.string().min(1), owner: person.nullable() }),
  'job-owner-named': z.object({ job: z.string().min(1), owner: person }),
  'job-closed': z.object({ job: z.string().min(1) }),
  /** The hand-over was undone. */
  'job-reopened': z.object({ job: z.string().min(1) }),
  /** The invitation is known by the hash of its secret alone. */
  'invitation-made': z.object({
    invitation: z.string().min(1),
    person,
    role,
    expiresAt: z.number(),
  }),
  /** Taken in a chat that is kept with the people's data as a guest, until a mechanic says who it is. */
  'invitation-taken': z.object({ invitation: z.string().min(1), guest: person }),
  'guest-confirmed': z.object({ invitation: z.string().min(1) }),
  'guest-turned-away': z.object({ invitation: z.string().min(1) }),
  'person-unlinked': z.object({ person }),
  'person-forgotten': z.object({ person }),
  'policy-set': z.object({ path: z.array(z.string()).min(1), value: z.unknown() }),
  'calendar-set': z.object({ of: person, calendar: calendarSchema }),
  'word-learnt': z.object({ said: z.string().min(1), part: z.string().min(1) }),
  'word-unlearnt': z.object({ said: z.string().min(1) }),
} as const;

export type ShopEventType = keyof typeof shopEventSchemas;
export type ShopEvent = {
  [T in ShopEventType]: { type: T; schema: number; data: z.infer<(typeof shopEventSchemas)[T]> };
}[ShopEventType];

export function shopEvent<T extends ShopEventType>(
  type: T,
  data: z.infer<(typeof shopEventSchemas)[T]>,
): Extract<ShopEvent, { type: T }> {
  return { type, schema: 1, data } as unknown as Extract<ShopEvent, { type: T }>;
}
