import type { Quantity } from '../../trade/terms.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { unitAt } from './units.js';

/** A measured value: tokens `from` up to `to`. A range gives its upper figure. */
export type MeasuredSpan = {
  from: number;
  to: number;
  value: number;
  unit: string;
  quantity: Quantity | null;
};

const number = (tokens: readonly Token[], at: number): number | undefined =>
  tokens[at]?.kind === 'number' && tokens[at]?.ordinal !== true ? tokens[at]?.value : undefined;

/** "3/8", "1 3/8", "2/1000", "70.5", "-2". */
export function valueAt(
  tokens: readonly Token[],
  at: number,
): { value: number; length: number; fraction: boolean } | null {
  const minus = /^[-–−]$/.test(wordAt(tokens, at)) && number(tokens, at + 1) !== undefined;
  const joinedBefore = minus && tokens[at - 1]?.kind === 'number';
  if (minus && !joinedBefore) {
    const rest = valueAt(tokens, at + 1);
    return rest === null ? null : { ...rest, value: -rest.value, length: rest.length + 1 };
  }
  const whole = number(tokens, at);
  if (whole === undefined) return null;
  if (/^\d+\/\d+$/.test(wordAt(tokens, at)) && number(tokens, at - 1) !== undefined)
    return { value: whole, length: 1, fraction: true };
  const over = fractionAt(tokens, at);
  if (over !== null) return over;
  const rest = fractionAt(tokens, at + 1);
  if (rest !== null && rest.value < 1 && Number.isInteger(whole))
    return { value: whole + rest.value, length: 1 + rest.length, fraction: true };
  return { value: whole, length: 1, fraction: false };
}

function fractionAt(
  tokens: readonly Token[],
  at: number,
): { value: number; length: number; fraction: true } | null {
  const token = tokens[at];
  if (token?.kind === 'number' && token.text.includes('/'))
    return { value: token.value ?? 0, length: 1, fraction: true };
  const above = number(tokens, at);
  const below = number(tokens, at + 2);
  if (above === undefined || below === undefined || wordAt(tokens, at + 1) !== '/' || below === 0)
    return null;
  if (tokens[at + 1]?.before !== '' || tokens[at + 2]?.before !== '') return null;
  // "3/1000ths"
  const ths = /^ths?$/.test(wordAt(tokens, at + 3)) && tokens[at + 3]?.before === '' ? 1 : 0;
  return { value: above / below, length: 3 + ths, fraction: true };
}

/** Teeth of the smallest sprocket; fewer are counted for damage: "two teeth chipped". Common practice, no source. */
const FEWEST_TEETH = 9;

/** Thou that a bore or a journal is over or under its size, least and most; common practice, no source. */
const LEAST_OVER = 2;
const MOST_OVER = 120;
/** Fewer oversize pistons than this are counted: "two oversize pistons". */
const COUNTED = 10;

type One = { value: number; unit: string; quantity: Quantity | null; length: number };

const ONE_WORD = /^(a|an|one)$/;
const PARTS: ReadonlyMap<string, number> = new Map([
  ['half', 0.5],
  ['quarter', 0.25],
  ['fourth', 0.25],
  ['tenth', 0.1],
  ['third', 1 / 3],
  ['thousand', 1000],
]);

/** A value in words where no figure stands: "a litre", "a tenth of a gallon". */
function wordValue(tokens: readonly Token[], at: number): { value: number; length: number } | null {
  const article = ONE_WORD.test(wordAt(tokens, at)) ? 1 : 0;
  const part = PARTS.get(wordAt(tokens, at + article));
  if (part !== undefined) {
    const of = wordAt(tokens, at + article + 1) === 'of' ? 1 : 0;
    const a = /^(a|an)$/.test(wordAt(tokens, at + article + 1 + of)) ? 1 : 0;
    return { value: part, length: article + 1 + of + a };
  }
  return article === 1 ? { value: 1, length: 1 } : null;
}

/** "a thou and a half": what is added to the whole, 0 where nothing is. */
const andPart = (tokens: readonly Token[], at: number): number =>
  wordAt(tokens, at) === 'and' && wordAt(tokens, at + 1) === 'a'
    ? ({ half: 0.5, quarter: 0.25 }[wordAt(tokens, at + 2)] ?? 0)
    : 0;

function oneAt(tokens: readonly Token[], at: number): One | null {
  const alone = wordAt(tokens, at) === 'thou' && andPart(tokens, at + 1) > 0;
  const value = valueAt(tokens, at) ?? wordValue(tokens, at) ?? (alone ? { value: 1, length: 0 } : null);
  if (value === null) return null;
  let next = at + value.length;
  if (wordAt(tokens, next) === 'of' && /^(a|an)$/.test(wordAt(tokens, next + 1))) next += 2;
  const unit = unitAt(tokens, next);
  if (unit === null) return null;
  if (unit.unit === 'teeth' && value.value < FEWEST_TEETH) return null;
  const words = valueAt(tokens, at) === null;
  const part = Number.isInteger(value.value) ? andPart(tokens, next + unit.length) : 0;
  // "a turn", "a foot", "a bar" in talk are seldom measured.
  if (words && !/^(L|mL|kg|lb|thou|in|mm|g|gal|pt)$/.test(unit.unit)) return null;
  const below =
    wordAt(tokens, next + unit.length) === 'below' && wordAt(tokens, next + unit.length + 1) === 'zero';
  return {
    value: below ? -value.value : value.value + part,
    unit: unit.unit,
    quantity: unit.quantity,
    length: next + unit.length + (below ? 2 : 0) + (part > 0 ? 3 : 0) - at,
  };
}

/** Metres and grams in each unit of length and mass, for sums such as "7 feet 10 inches" (exact, by definition). */
const SIZE: ReadonlyMap<string, [kind: string, size: number]> = new Map([
  ['mm', ['length', 0.001]],
  ['cm', ['length', 0.01]],
  ['m', ['length', 1]],
  ['km', ['length', 1000]],
  ['in', ['length', 0.0254]],
  ['thou', ['length', 0.0000254]],
  ['ft', ['length', 0.3048]],
  ['yd', ['length', 0.9144]],
  ['mi', ['length', 1609.344]],
  ['g', ['mass', 1]],
  ['kg', ['mass', 1000]],
  ['lb', ['mass', 453.59237]],
  ['oz', ['mass', 28.349523125]],
]);

/** "7 feet, 10 inches": smaller units of the same kind add up, in the smallest. */
function sumAt(tokens: readonly Token[], at: number): One | null {
  let sum = oneAt(tokens, at);
  while (sum !== null) {
    let next = at + sum.length;
    if (wordAt(tokens, next) === ',') next += 1;
    if (wordAt(tokens, next) === 'and') next += 1;
    const more = oneAt(tokens, next);
    const big = SIZE.get(sum.unit);
    const small = more === null ? undefined : SIZE.get(more.unit);
    if (
      more === null ||
      big === undefined ||
      small === undefined ||
      big[0] !== small[0] ||
      small[1] >= big[1] ||
      // "7.012 in and four thou oval": two values of two things.
      (more.unit === 'thou' && !Number.isInteger(sum.value))
    )
      break;
    const value = Number(((sum.value * big[1]) / small[1] + more.value).toFixed(6));
    // "1 metre and 1 foot" stays in the larger unit where the two systems mix.
    const mixed = Number.isInteger(value)
      ? { value, unit: more.unit }
      : { value: sum.value + (more.value * small[1]) / big[1], unit: sum.unit };
    sum = { ...mixed, quantity: more.quantity, length: next + more.length - at };
  }
  return sum;
}

/** "3-5 mm", "between 3 and 5 mm", "3 to 5 mm": the upper figure. */
function rangeAt(tokens: readonly Token[], at: number): One | null {
  const lower = valueAt(tokens, at);
  if (lower === null) return null;
  const led = /^(between|from)$/.test(wordAt(tokens, at - 1));
  let next = at + lower.length;
  const unit = unitAt(tokens, next);
  if (unit !== null && /^(-|–|to|and|or)$/.test(wordAt(tokens, next + unit.length))) next += unit.length;
  const joint = wordAt(tokens, next);
  if (!/^(-|–|to|or)$/.test(joint) && !(joint === 'and' && led)) return null;
  next += 1;
  if (/^(~|about|around)$/.test(wordAt(tokens, next))) next += 1;
  const upper = oneAt(tokens, next);
  return upper === null ? null : { ...upper, length: next + upper.length - at };
}

const OVER = /^(over|under|oversize|undersize|oversized|undersized)$/;

/** "ten under", "plus 20", "40 over": thou, in the trade's way of speaking. */
function oversizeAt(tokens: readonly Token[], at: number): One | null {
  const plus = /^(plus|\+)$/.test(wordAt(tokens, at)) ? 1 : 0;
  const value = number(tokens, at + plus);
  if (value === undefined) return null;
  const over = OVER.test(wordAt(tokens, at + plus + 1));
  const rebore = /^(pistons?|rebore|bore|rings?|shells?)$/.test(wordAt(tokens, at + plus + 1));
  if (!over && !(plus === 1 && rebore)) return null;
  if (
    value < COUNTED &&
    plus === 0 &&
    /^oversized?$/.test(wordAt(tokens, at + 1)) &&
    tokens[at + 2]?.kind === 'word'
  )
    return null;
  const inches = value < 1 && !Number.isInteger(value);
  if (!inches && (value < LEAST_OVER || value > MOST_OVER)) return null;
  return { value, unit: inches ? 'in' : 'thou', quantity: null, length: plus + (over ? 2 : 1) };
}

const FRACTION_OF =
  /^(length|diameter|gap|depth|slack|play|free|dia|thickness|width|tread|sag|movement|long|wide|deep|thick|high|before|btdc|btc|bore|thread)$/;

/** "free length 1 13/16", "3/8 slack": a fraction beside a word of length is in inches. */
function bareFraction(tokens: readonly Token[], at: number): One | null {
  const value = valueAt(tokens, at);
  if (value === null || !value.fraction) return null;
  const near = [
    wordAt(tokens, at - 1),
    wordAt(tokens, at - 2),
    wordAt(tokens, at + value.length),
    wordAt(tokens, at + value.length + 1),
  ];
  return near.some((word) => FRACTION_OF.test(word))
    ? { value: value.value, unit: 'in', quantity: null, length: value.length }
    : null;
}

/** Words and marks that a value may begin with, beside figures. */
const OPENS = new Set(['a', 'an', 'one', 'thou', 'plus', '+', '-', '–', '−', ...PARTS.keys()]);

/** All values with a unit, in the order said. Number words must have been turned into figures. */
export function measures(tokens: readonly Token[]): MeasuredSpan[] {
  const found: MeasuredSpan[] = [];
  for (let at = 0; at < tokens.length;) {
    const token = tokens[at];
    if (token?.kind !== 'number' && !OPENS.has(token?.word ?? '')) {
      at += 1;
      continue;
    }
    const one =
      rangeAt(tokens, at) ?? sumAt(tokens, at) ?? oversizeAt(tokens, at) ?? bareFraction(tokens, at);
    if (one === null) {
      at += 1;
      continue;
    }
    const value = Number(one.value.toFixed(6));
    found.push({ from: at, to: at + one.length, value, unit: one.unit, quantity: one.quantity });
    at += one.length;
  }
  return found;
}
