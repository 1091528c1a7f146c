import { z } from 'zod';
import { PLACES, QUANTITIES } from '../terms.js';

/** The coarse groups that parts are sorted into; a part has one. */
export const GROUPS = [
  'engine top end',
  'engine bottom end',
  'timing side',
  'lubrication',
  'gearbox',
  'clutch',
  'primary drive',
  'final drive',
  'front end',
  'front wheel',
  'rear wheel',
  'wheels',
  'brakes',
  'frame',
  'rear suspension',
  'tinware',
  'seat',
  'exhaust',
  'fuel',
  'ignition',
  'charging',
  'lighting',
  'wiring',
  'instruments',
  'controls',
  'sidecar',
  'fasteners',
  'bearings and seals',
  'general',
  'tools and luggage',
] as const;
export type Group = (typeof GROUPS)[number];

const said = z
  .string()
  .regex(
    /^[a-z0-9][a-z0-9/.'-]*( [a-z0-9][a-z0-9/.'-]*)*$/,
    'must be lower case words with single spaces (letters, figures, hyphen, apostrophe, stop or stroke)',
  );

/** One part as it stands in a file of `parts/`. Lists other than `sides` may be left out when empty. */
export const entrySchema = z.strictObject({
  name: said,
  group: z.enum(GROUPS, { error: `must be one of: ${GROUPS.join(', ')}` }),
  also: z.array(said).default([]),
  misheard: z.array(said).default([]),
  plural: said.optional(),
  sides: z.array(z.enum(PLACES, { error: `must be one of: ${PLACES.join(', ')}` }), {
    error: 'must be a list, empty ([]) where no side makes sense',
  }),
  count: z.number().int().min(2).max(200).optional(),
  within: z.array(said).default([]),
  quantities: z.array(z.enum(QUANTITIES, { error: `must be one of: ${QUANTITIES.join(', ')}` })).default([]),
});

/** One part of a motorcycle: what it is called, misheard as, sits in, and what is measured on it. */
export type Part = z.infer<typeof entrySchema> & {
  /** The file it came from, without `.yaml`. */
  area: string;
};
