import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import type { FieldSigns } from './field-signs.js';

const weightsSchema = z.strictObject({
  /** A field that something is told in, or nothing, is marked where the chance that it is wrong is above this. */
  mark: z.strictObject({ told: z.number().gt(0).lte(1), untold: z.number().gt(0).lte(1) }),
  told: z.record(z.string(), z.number()),
  untold: z.record(z.string(), z.number()),
});
export type Weights = z.infer<typeof weightsSchema>;

/** How much each sign weighs; how they were come by stands at the head of the file. */
export const weights: Weights = weightsSchema.parse(
  parse(readFileSync(new URL('./weights.yaml', import.meta.url), 'utf8')),
);

/** The signs of a field, with those that every field, and every such field, has. */
export const allSigns = ({ field, signs }: FieldSigns): [sign: string, value: number][] => [
  ['any', 1],
  [`a ${field}`, 1],
  ...Object.entries(signs).filter(([, value]) => value !== 0),
];

/** Whether a field is likely enough to be wrong to be asked about. */
export const isDoubtful = (one: FieldSigns): boolean =>
  chanceWrong(one) > (one.absent ? weights.mark.untold : weights.mark.told);

/** The chance, from 0 to 1, that a field is wrong: a logistic regression over its signs. */
export function chanceWrong(one: FieldSigns, by: Weights = weights): number {
  const table = one.absent ? by.untold : by.told;
  const sum = allSigns(one).reduce((total, [sign, value]) => total + (table[sign] ?? 0) * value, 0);
  return 1 / (1 + Math.exp(-sum));
}
