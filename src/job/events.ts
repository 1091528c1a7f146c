import { z } from 'zod';
import { costSchema, measuredSchema } from '../hearing/reading.js';
import { CONDITIONS, GATES, PLACES, PROCESSES, REMEDIES } from '../trade/terms.js';

const isoDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, 'a date like 2026-03-14');
const person = z.string().min(1);
/** The id of words kept beside the stream, so that a person's words can be forgotten without rewriting history. */
const textId = z.string().min(1);
const item = z.number().int().positive();
const places = z.array(z.enum(PLACES));
const processes = z.array(z.enum(PROCESSES));
const gate = z.enum(GATES);

export const attachmentSchema = z.object({
  kind: z.enum(['photo', 'voice', 'document']),
  /** The chat's lasting id of the content: the same picture sent twice has the same one. */
  unique: z.string().min(1),
  /** The chat's handle to fetch it by. */
  handle: z.string().min(1),
});
export type Attachment = z.infer<typeof attachmentSchema>;

/** What each event of a job holds, in its newest schema version. */
export const jobEventSchemas = {
  'job-opened': z.object({
    title: z.string().min(1),
    model: textId.nullable(),
    template: z.string().min(1),
    owner: person.nullable(),
    arrivedOn: isoDate,
  }),
  'arrival-noted': z.object({ text: textId, attachments: z.array(attachmentSchema) }),
  'owner-named': z.object({ owner: person }),
  'item-listed': z.object({
    item,
    part: z.string().min(1).nullable(),
    called: textId.nullable(),
    group: z.string().nullable(),
    place: places,
    count: z.number().positive().nullable(),
  }),
  'item-corrected': z.object({
    item,
    part: z.string().min(1).nullable(),
    group: z.string().nullable(),
    place: places,
    count: z.number().positive().nullable(),
  }),
  'item-taken-off': z.object({ item }),
  'item-stored': z.object({ item, stored: z.string().min(1) }),
  'finding-logged': z.object({
    item,
    conditions: z.array(z.enum(CONDITIONS)),
    readings: z.array(measuredSchema),
    place: places,
    text: textId.nullable(),
    attachments: z.array(attachmentSchema),
  }),
  'remedy-decided': z.object({
    item,
    remedy: z.enum(REMEDIES),
    processes,
    supplier: person.nullable(),
  }),
  'cost-noted': z.object({ item, cost: costSchema }),
  'work-done': z.object({ item }),
  'line-opened': z.object({
    line: z.string().min(1),
    kind: z.enum(['order', 'sublet']),
    item,
    supplier: person.nullable(),
    processes,
    count: z.number().positive().nullable(),
    on: isoDate,
    due: isoDate.nullable(),
  }),
  /** It turned out, or was said only later, who has it. */
  'line-placed': z.object({ line: z.string().min(1), supplier: person }),
  'promise-made': z.object({ line: z.string().min(1), due: isoDate, by: person.nullable(), on: isoDate }),
  /** The supplier wrote about it, with or without a new date. */
  'line-answered': z.object({
    line: z.string().min(1),
    text: textId,
    /** It waits to be collected, or is on its way. */
    ready: z.boolean(),
  }),
  'line-returned': z.object({
    line: z.string().min(1),
    outcome: z.enum(['all', 'part', 'refused']),
    count: z.number().positive().nullable(),
    on: isoDate,
    text: textId.nullable(),
  }),
  'step-fitted': z.object({ step: z.string().min(1) }),
  'step-undone': z.object({ step: z.string().min(1) }),
  'item-fitted': z.object({ item }),
  'step-added': z.object({
    step: z.string().min(1),
    name: textId,
    after: z.array(z.string()),
    before: z.array(z.string()),
    parts: z.array(z.string()),
    hours: z.number().nonnegative(),
  }),
  'step-dropped': z.object({ step: z.string().min(1) }),
  'step-linked': z.object({ step: z.string().min(1), after: z.string().min(1), linked: z.boolean() }),
  'step-timed': z.object({ step: z.string().min(1), hours: z.number().nonnegative() }),
  'check-done': z.object({ check: z.string().min(1), text: textId.nullable() }),
  'road-tested': z.object({ outcome: z.enum(['pass', 'fail']), text: textId.nullable() }),
  'fault-found': z.object({ fault: z.number().int().positive(), item: item.nullable(), text: textId }),
  'fault-cleared': z.object({ fault: z.number().int().positive() }),
  'yes-asked': z.object({ asking: z.string().min(1), items: z.array(item) }),
  'owner-answered': z.object({
    items: z.array(item),
    outcome: z.enum(['yes', 'no', 'talk']),
    text: textId.nullable(),
  }),
  'wanted-by-set': z.object({ gate: gate.nullable(), date: isoDate.nullable() }),
  'gate-passed': z.object({ gate }),
  'gate-reopened': z.object({ gate }),
  'notice-drafted': z.object({
    notice: z.string().min(1),
    about: z.enum(['passed', 'reopened', 'silence', 'handed-over']),
    gate: gate.nullable(),
  }),
  'notice-released': z.object({ notice: z.string().min(1) }),
  'notice-dropped': z.object({ notice: z.string().min(1) }),
  'note-kept': z.object({ item: item.nullable(), text: textId, attachments: z.array(attachmentSchema) }),
  'attachment-fetched': z.object({ unique: z.string().min(1), hash: z.string().min(1) }),
  'attachment-lost': z.object({ unique: z.string().min(1), why: z.enum(['too-big', 'gone', 'no-room']) }),
  'caution-given': z.object({ item, caution: z.string().min(1) }),
  'message-undone': z.object({ message: z.string().min(1) }),
  'handed-over': z.object({ on: isoDate }),
} as const;

export type JobEventType = keyof typeof jobEventSchemas;
export type JobEvent = {
  [T in JobEventType]: { type: T; schema: number; data: z.infer<(typeof jobEventSchemas)[T]> };
}[JobEventType];

/** The newest schema version of each event that has had more than one; `upcast` brings older ones up to it. */
export const SCHEMA_VERSIONS: Partial<Record<JobEventType, number>> = {
  /** 1 did not say whether it was ready. */
  'line-answered': 2,
};

/** Makes an event of the current schema version. */
export function event<T extends JobEventType>(
  type: T,
  data: z.infer<(typeof jobEventSchemas)[T]>,
): Extract<JobEvent, { type: T }> {
  return { type, schema: SCHEMA_VERSIONS[type] ?? 1, data } as unknown as Extract<JobEvent, { type: T }>;
}
