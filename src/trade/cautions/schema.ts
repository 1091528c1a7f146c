import { z } from 'zod';
import { GROUPS } from '../lexicon/schema.js';
import { ACTS, CONDITIONS, PROCESSES, REMEDIES } from '../terms.js';

export type { Act } from '../terms.js';

/**
 * One occasion for a caution. The part is one of `parts` or in one of `groups`, whichever are given; `wholeMachine`
 * asks that no part was named. Every other list given must hold one of what was said; a list left out asks nothing.
 */
export const occasionSchema = z
  .strictObject({
    parts: z.array(z.string().min(1)).min(1).optional(),
    groups: z.array(z.enum(GROUPS)).min(1).optional(),
    wholeMachine: z.literal(true).optional(),
    processes: z.array(z.enum(PROCESSES)).min(1).optional(),
    remedies: z.array(z.enum(REMEDIES)).min(1).optional(),
    conditions: z.array(z.enum(CONDITIONS)).min(1).optional(),
    acts: z.array(z.enum(ACTS)).min(1).optional(),
  })
  .refine((occasion) => Object.keys(occasion).length > 0, 'an occasion must ask for something')
  .refine(
    ({ wholeMachine, parts, groups }) =>
      wholeMachine !== true || (parts === undefined && groups === undefined),
    'an occasion for the whole machine names no parts or groups',
  );

export const cautionSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'must be lower case words joined by hyphens'),
  title: z.string().min(1).max(60),
  text: z.string().min(1).max(240),
  when: z.array(occasionSchema).min(1),
  source: z.strictObject({
    body: z.string().min(1),
    reference: z.string().min(1),
    /** True where the publication was not at hand when this was written. */
    from_memory: z.boolean(),
    note: z.string().min(1).optional(),
  }),
});

export type Occasion = z.infer<typeof occasionSchema>;

/** A usual caution for work that can hurt someone, and where it is published. */
export type Caution = z.infer<typeof cautionSchema>;
