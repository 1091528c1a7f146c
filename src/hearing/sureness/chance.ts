import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import type { FieldSigns } from './field-signs.js';
import type { Sign } from './signs.js';

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

/** Signs that speak otherwise of one field than of another: each weighs in all of them, and again in each by itself. */
const BY_FIELD = new Set(
  (
    'neighbour said saidOwn saidLost saidSentence next faulty decided hasProcess hasSupplier hasCost ownStrays ownLost ' +
    'ownFigures figures lost strayShare kinBefore kinAfter mendsKin mendsOther mendedByKin mendedLater othersDecided ' +
    'led ledByNew doerUndecided doerSomewhere deedUndecided processUndecided several twin shared spoken oneWord ' +
    'unanchored nameless guessed joined corrected denied far before acrossThing acrossStop hedged senses everyday ' +
    'rivals valued besideStrayWord pointed actAlone crowded stops'
  ).split(' '),
);

/** The signs of a field, with those that every field, and every such field, has. */
export const allSigns = ({ field, shared, own }: FieldSigns): Sign[] => {
  const there = [...shared, ...own];
  const byField = there.filter(([sign]) => BY_FIELD.has(sign));
  return [
    ['any', 1],
    [`a ${field}`, 1],
    ...there,
    ...byField.map(([sign, value]): Sign => [`${sign} of ${field}`, value]),
  ];
};

/** Whether a field is likely enough to be wrong to be asked about. */
export const isDoubtful = (one: FieldSigns): boolean =>
  chanceWrong(one) > (one.absent ? weights.mark.untold : weights.mark.told);

type Table = Record<string, number>;
const ofFields = new WeakMap<Table, Map<string, Map<string, number>>>();

/** What each sign weighs for one field in all, its own share included; put together once for each table. */
function weightsFor(table: Table, field: string): ReadonlyMap<string, number> {
  const fields = ofFields.get(table) ?? new Map<string, Map<string, number>>();
  ofFields.set(table, fields);
  const known = fields.get(field);
  if (known !== undefined) return known;
  const own = new Map(Object.entries(table));
  for (const sign of BY_FIELD) own.set(sign, (table[sign] ?? 0) + (table[`${sign} of ${field}`] ?? 0));
  fields.set(field, own);
  return own;
}

/** The chance, from 0 to 1, that a field is wrong: a logistic regression over its signs. */
export function chanceWrong({ field, absent, shared, own }: FieldSigns, by: Weights = weights): number {
  const weighs = weightsFor(absent ? by.untold : by.told, field);
  let sum = (weighs.get('any') ?? 0) + (weighs.get(`a ${field}`) ?? 0);
  for (const [sign, value] of shared) sum += (weighs.get(sign) ?? 0) * value;
  for (const [sign, value] of own) sum += (weighs.get(sign) ?? 0) * value;
  return 1 / (1 + Math.exp(-sum));
}
