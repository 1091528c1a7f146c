import { z } from 'zod';
import { GROUPS } from '../lexicon/schema.js';
import { PLACES } from '../terms.js';

/** Where on the machine a step belongs, in the order in which a build usually reaches them. */
export const STAGES = [
  'preparation',
  'engine',
  'gearbox',
  'frame',
  'front end',
  'wheels',
  'primary drive',
  'final drive',
  'tinware',
  'fuel and oil',
  'exhaust',
  'controls',
  'electrics',
  'finishing',
] as const;
export type Stage = (typeof STAGES)[number];

const id = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'must be lower case words joined by hyphens');

const waitSchema = z.strictObject({
  /** Calendar days. */
  days: z.number().positive().max(60),
  for: z.string().min(1),
  /** The step that the days run from; left out, they run from the last step that this one waits for. */
  after: id.optional(),
});

export const stepSchema = z.strictObject({
  id,
  name: z.string().min(1).max(60),
  /** Canonical part names that the step fits or needs. */
  parts: z.array(z.string().min(1)).default([]),
  /** Lexicon groups whose other items belong to this step where no step names them. */
  groups: z.array(z.enum(GROUPS)).default([]),
  /** Where several steps name a part or group, this one is for the items of this place. */
  place: z.enum(PLACES).optional(),
  after: z.array(id).default([]),
  /** Bench hours, rough. */
  hours: z.number().positive().max(80),
  stage: z.enum(STAGES),
  watch: z.string().min(1).max(160).optional(),
  waits: z.array(waitSchema).default([]),
});

export const orderSchema = z.strictObject({
  id,
  name: z.string().min(1),
  steps: z.array(stepSchema).min(1),
});

export type BuildStep = z.infer<typeof stepSchema>;

/** Which step comes before which for one kind of machine, with rough hours and what to watch. */
export type BuildOrder = z.infer<typeof orderSchema>;
