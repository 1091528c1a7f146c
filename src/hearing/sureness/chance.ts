import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { FIELDS, type Field } from './evidence.js';
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
/** What each sign weighs in each field, by the field's place in `FIELDS`; `base` is what weighs without any. */
type Rows = { base: Float64Array; signs: ReadonlyMap<string, Float64Array> };
const rows = new WeakMap<Table, Rows>();

/** The weights of a table by sign, what a sign weighs in one field by itself included; put together once for each table. */
function rowsOf(table: Table): Rows {
  const known = rows.get(table);
  if (known !== undefined) return known;
  const weight = (sign: string): number => table[sign] ?? 0;
  const row = (of: (field: Field) => number): Float64Array => Float64Array.from(FIELDS, of);
  const signs = new Map(Object.keys(table).map((sign) => [sign, row(() => weight(sign))]));
  for (const sign of BY_FIELD)
    signs.set(
      sign,
      row((field) => weight(sign) + weight(`${sign} of ${field}`)),
    );
  const made = { base: row((field) => weight('any') + weight(`a ${field}`)), signs };
  rows.set(table, made);
  return made;
}

const sums = new WeakMap<readonly Sign[], Map<Rows, Float64Array>>();

/** What the signs that all fields of an item share weigh in each; added up once for them all. */
function sharedSum(shared: readonly Sign[], by: Rows): Float64Array {
  const known = sums.get(shared) ?? new Map<Rows, Float64Array>();
  sums.set(shared, known);
  let sum = known.get(by);
  if (sum !== undefined) return sum;
  sum = by.base.slice();
  for (const [sign, value] of shared) {
    const row = by.signs.get(sign);
    if (row !== undefined)
      for (let at = 0; at < sum.length; at += 1) sum[at] = (sum[at] ?? 0) + (row[at] ?? 0) * value;
  }
  known.set(by, sum);
  return sum;
}

/** The chance, from 0 to 1, that a field is wrong: a logistic regression over its signs. */
export function chanceWrong({ field, absent, shared, own }: FieldSigns, by: Weights = weights): number {
  const weighs = rowsOf(absent ? by.untold : by.told);
  const at = FIELDS.indexOf(field);
  let sum = sharedSum(shared, weighs)[at] ?? 0;
  for (const [sign, value] of own) sum += (weighs.signs.get(sign)?.[at] ?? 0) * value;
  return 1 / (1 + Math.exp(-sum));
}
