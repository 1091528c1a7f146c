import { sums } from '../../src/hearing/amounts/money.js';
import { measures } from '../../src/hearing/amounts/measures.js';
import { dueDates } from '../../src/hearing/dates/due-dates.js';
import { figures } from '../../src/hearing/text/number-words.js';
import { tokenise } from '../../src/hearing/text/tokens.js';

export type DueDateCase = { text: string; ref: string; expected: string };
export type MoneyCase = {
  text: string;
  kind: 'value' | 'spans';
  currency?: string;
  amount?: number;
  results?: { amount: string; unit: string }[];
};
export type MeasureCase = { text: string; expect: string };

const words = (text: string) => figures(tokenise(text));

/** Right when the days found are all the one expected. */
export function dueDateRight({ text, ref, expected }: DueDateCase): boolean {
  const dates = new Set(dueDates(words(text), ref).map((found) => found.date));
  return dates.size === 1 && dates.has(expected);
}

export const findsNoDate = (text: string, today: string): boolean =>
  dueDates(words(text), today).length === 0;

/** Right when the sums found are those expected, in sterling, pence as parts of a pound. */
export function moneyRight({ text, kind, amount, results }: MoneyCase): boolean {
  const found = sums(words(text)).filter((sum) => sum.cost.currency === 'GBP');
  const expected =
    kind === 'value'
      ? [amount ?? NaN]
      : (results ?? []).map((one) => Number(one.amount) * (/^pen/i.test(one.unit) ? 0.01 : 1));
  return (
    found.length === expected.length &&
    found.every((sum, at) => Math.abs(sum.cost.amount - (expected[at] ?? NaN)) < 0.005)
  );
}

/** The source's unit names, as our unit and the factor from it. */
const UNITS: ReadonlyMap<string, [unit: string, factor: number]> = new Map([
  ['Kilometre', ['m', 1000]],
  ['Metre', ['m', 1]],
  ['Centimetre', ['m', 0.01]],
  ['Millimetre', ['m', 0.001]],
  ['Mile', ['m', 1609.344]],
  ['Yard', ['m', 0.9144]],
  ['Foot', ['m', 0.3048]],
  ['Inch', ['m', 0.0254]],
  ['M', ['m', 1]],
  ['Gram', ['g', 1]],
  ['Pound', ['g', 453.59237]],
  ['Ounce', ['g', 28.349523125]],
  ['Cup', ['cup', 1]],
  ['Litre', ['L', 1]],
  ['Millilitre', ['L', 0.001]],
  ['Hectolitre', ['L', 100]],
  ['Gallon', ['gal', 1]],
  ['Celsius', ['degC', 1]],
  ['Fahrenheit', ['degF', 1]],
  ['Degree', ['deg', 1]],
]);
const OURS: ReadonlyMap<string, [unit: string, factor: number]> = new Map([
  ['km', ['m', 1000]],
  ['m', ['m', 1]],
  ['cm', ['m', 0.01]],
  ['mm', ['m', 0.001]],
  ['mi', ['m', 1609.344]],
  ['yd', ['m', 0.9144]],
  ['ft', ['m', 0.3048]],
  ['in', ['m', 0.0254]],
  ['g', ['g', 1]],
  ['kg', ['g', 1000]],
  ['mg', ['g', 0.001]],
  ['lb', ['g', 453.59237]],
  ['oz', ['g', 28.349523125]],
  ['cup', ['cup', 1]],
  ['L', ['L', 1]],
  ['mL', ['L', 0.001]],
  ['hL', ['L', 100]],
  ['gal', ['gal', 1]],
  ['degC', ['degC', 1]],
  ['degF', ['degF', 1]],
  ['deg', ['deg', 1]],
]);

/**
 * Right when the one value found is the expected one in a unit of the same kind (2 g is 0.002 kg); of a range, its
 * upper figure, which is what a reading keeps.
 */
export function measureRight({ text, expect }: MeasureCase): boolean {
  const found = measures(words(text));
  const one = found[0];
  const unit = /^\w+ (\w+)/.exec(expect)?.[1] ?? '';
  const numbers = [...expect.matchAll(/-?\d+(?:\.\d+)?/g)].map((match) => Number(match[0]));
  const value = numbers.at(-1) ?? NaN;
  const wanted = UNITS.get(unit);
  const got = one === undefined ? undefined : OURS.get(one.unit);
  if (one === undefined || wanted === undefined || got === undefined || found.length !== 1) return false;
  return (
    wanted[0] === got[0] &&
    Math.abs(value * wanted[1] - one.value * got[1]) <= Math.abs(value * wanted[1]) * 1e-6
  );
}
