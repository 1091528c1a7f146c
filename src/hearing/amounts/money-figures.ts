import type { Currency } from '../reading.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';

/** A plain figure at a place: no rank, no fraction. */
export const number = (tokens: readonly Token[], at: number): number | undefined =>
  tokens[at]?.kind === 'number' && tokens[at]?.ordinal !== true && !wordAt(tokens, at).includes('/')
    ? tokens[at]?.value
    : undefined;

/** Currencies by the sign or code before a figure. */
export const SIGNS: ReadonlyMap<string, Currency> = new Map([
  ['£', 'GBP'],
  ['$', 'USD'],
  ['€', 'EUR'],
  ['gbp', 'GBP'],
  ['usd', 'USD'],
  ['eur', 'EUR'],
]);
/** Currencies by the word after a figure. */
const NAMES: ReadonlyMap<string, Currency> = new Map([
  ...['pound', 'pounds', 'quid', 'gbp', 'sterling', 'sovs', 'nicker', '£', 'quids', 'squid', 'smackers'].map(
    (word) => [word, 'GBP'] as const,
  ),
  ...['euro', 'euros', 'eur', '€'].map((word) => [word, 'EUR'] as const),
  ...['dollar', 'dollars', 'bucks', 'usd', '$'].map((word) => [word, 'USD'] as const),
]);
/** From here up, round tens of "notes" are pounds: "fifty notes". Common practice, no source; fewer are written ones: "2 notes". */
const FEWEST_NOTES = 20;

/** The currency that a word after a figure names. */
export const currencyNamed = (word: string, amount: number): Currency | undefined =>
  word === 'notes' && amount >= FEWEST_NOTES && amount % 10 === 0 ? 'GBP' : NAMES.get(word);

const SCALES: ReadonlyMap<string, number> = new Map([
  ['k', 1000],
  ['grand', 1000],
  ['thousand', 1000],
  ['million', 1_000_000],
  ['m', 1_000_000],
]);

/** "odd" after a number, "-ish", make it rough. */
export const roughAfter = (tokens: readonly Token[], at: number): number =>
  /^(odd|ish|or)$/.test(wordAt(tokens, at)) &&
  (wordAt(tokens, at) !== 'or' || wordAt(tokens, at + 1) === 'so')
    ? wordAt(tokens, at) === 'or'
      ? 2
      : 1
    : 0;

/** What a price in hundreds comes after: "at three eighty", "quoted two forty". */
const PRICES =
  /^(at|for|quoted|quotes|wants|about|around|says|charges|charged|paid|cost|costs|roughly|of|comes|to)$/;

/** "three eighty", said of money: 380. */
export function hundreds(tokens: readonly Token[], at: number): { amount: number; length: number } | null {
  const first = number(tokens, at) ?? (wordAt(tokens, at) === 'one' ? 1 : undefined);
  const [second, third] = [number(tokens, at + 1), tokens[at + 2]];
  const spaced = tokens[at + 1]?.before === ' ';
  if (first === undefined || second === undefined || !spaced || first > 19 || first < 1) return null;
  if (!Number.isInteger(first) || !Number.isInteger(second) || second < 10 || second > 99) return null;
  const amount = first * 100 + second;
  // "new one 12 quid": only a price is "one twenty".
  const named = currencyNamed(third?.word ?? '', amount) !== undefined && wordAt(tokens, at) !== 'one';
  const closed =
    third === undefined || third.kind === 'mark' || /^(plus|all|the|for|each|cash|inc)$/.test(third.word);
  return named ||
    (closed && PRICES.test(wordAt(tokens, at - (/^(me|us|him|them)$/.test(wordAt(tokens, at - 1)) ? 2 : 1))))
    ? { amount, length: 2 }
    : null;
}

function scaled(tokens: readonly Token[], at: number): { amount: number; length: number } | null {
  const inHundreds = hundreds(tokens, at);
  if (inHundreds !== null) return inHundreds;
  const value = number(tokens, at);
  if (value === undefined) return null;
  const scale = SCALES.get(wordAt(tokens, at + 1));
  if (scale === undefined || (wordAt(tokens, at + 1) === 'm' && tokens[at + 1]?.before !== ''))
    return { amount: value, length: 1 };
  return { amount: value * scale, length: 2 };
}

const isRangeJoint = (word: string): boolean => /^(-|–|to|or)$/.test(word);

/** A range's upper figure: "40 to 50", "40-50", "between 40 and 50". */
export function upperFigure(
  tokens: readonly Token[],
  at: number,
): { amount: number; length: number; range: boolean } | null {
  const lower = scaled(tokens, at);
  if (lower === null) return null;
  const joint = wordAt(tokens, at + lower.length);
  const pence = wordAt(tokens, at + 2);
  // "£4-50" is four pounds fifty.
  if (
    SIGNS.has(wordAt(tokens, at - 1)) &&
    joint === '-' &&
    lower.amount < 10 &&
    /^[1-9]\d$/.test(pence) &&
    tokens[at + 2]?.before === ''
  )
    return { amount: lower.amount + Number(pence) / 100, length: 3, range: false };
  const between = wordAt(tokens, at - 1) === 'between' || wordAt(tokens, at - 2) === 'between';
  if (isRangeJoint(joint) || (between && joint === 'and')) {
    const sign = SIGNS.has(wordAt(tokens, at + lower.length + 1)) ? 1 : 0;
    const upper = scaled(tokens, at + lower.length + 1 + sign);
    if (upper !== null && upper.amount > lower.amount)
      return { amount: upper.amount, length: lower.length + 1 + sign + upper.length, range: true };
  }
  return { ...lower, range: false };
}
