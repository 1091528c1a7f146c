import { z } from 'zod';

/** What a message out is: which words it gets, and what is checked again before it goes. */
export const MESSAGE_KINDS = [
  'supplier-day',
  'round-up',
  'nudge',
  'notice',
  'yes-asked',
  'told',
  'release-asked',
  'guest-asked',
  'welcome',
  'trouble',
] as const;
export type MessageKind = (typeof MESSAGE_KINDS)[number];

const text = z.string().min(1);

/** One matter that a message is about; the due id says which step of which matter, so that none is spoken of twice. */
export const matterSchema = z.object({
  due: z.string().nullable(),
  job: z.string().nullable(),
  person: z.string().nullable(),
  line: z.string().nullable(),
  step: z.string().nullable(),
});
export type Matter = z.infer<typeof matterSchema>;

/** What each event of one person's stream holds: messages to and from them, over all jobs. */
export const contactEventSchemas = {
  'message-intended': z.object({
    id: z.string().min(1),
    kind: z.enum(MESSAGE_KINDS),
    about: z.array(matterSchema),
    /** The person's local day, where only one such message may go a day. */
    day: z.string().nullable(),
    /** Words that were said and are passed on. */
    text: text.nullable(),
  }),
  'message-attempted': z.object({ id: z.string().min(1) }),
  'message-sent': z.object({
    id: z.string().min(1),
    chatMessage: z.number(),
    /** An earlier attempt may have reached them too. */
    perhapsRepeated: z.boolean(),
    /** Those matters that still held as it was sent. */
    about: z.array(matterSchema),
  }),
  /** It did not go: turned away, or no answer came, so that it may have gone all the same. It will be tried again. */
  'message-postponed': z.object({ id: z.string().min(1), why: z.enum(['turned-away', 'no-answer']) }),
  'message-failed': z.object({ id: z.string().min(1), why: z.string() }),
  /** 'late': its hours had passed before it could go, and its matters are to be said at another time. */
  'message-dropped': z.object({
    id: z.string().min(1),
    why: z.enum(['settled', 'not-linked', 'forgotten', 'late']),
  }),
  'message-received': z.object({ text, about: z.array(matterSchema) }),
  'voice-received': z.object({ unique: z.string().min(1), handle: z.string().min(1) }),
  /** A round-up was looked at and held nothing worth a message. */
  'day-passed': z.object({ day: z.string(), kind: z.enum(MESSAGE_KINDS) }),
} as const;

export type ContactEventType = keyof typeof contactEventSchemas;
export type ContactEvent = {
  [T in ContactEventType]: { type: T; schema: number; data: z.infer<(typeof contactEventSchemas)[T]> };
}[ContactEventType];

export function contactEvent<T extends ContactEventType>(
  type: T,
  data: z.infer<(typeof contactEventSchemas)[T]>,
): Extract<ContactEvent, { type: T }> {
  return { type, schema: 1, data } as unknown as Extract<ContactEvent, { type: T }>;
}
