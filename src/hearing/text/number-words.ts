import type { Token } from './tokens.js';
import { ONES, RANKS, TENS, followsAsUnit } from './number-vocabulary.js';

type Found = { value: number; length: number; text?: string; ordinal?: boolean };

const spelledAt = (tokens: readonly Token[], at: number): string => {
  const token = tokens[at];
  return token?.kind === 'word' ? token.word : '';
};

/** A whole number below a hundred: "seven", "twenty", "twenty five", "twenty first". */
function belowHundred(tokens: readonly Token[], at: number): Found | null {
  const word = spelledAt(tokens, at);
  const tens = TENS.get(word);
  const next = spelledAt(tokens, at + 1);
  if (tens !== undefined) {
    const ones = ONES.get(next);
    if (ones !== undefined && ones > 0 && ones < 10) return { value: tens + ones, length: 2 };
    const rank = RANKS.get(next);
    if (rank !== undefined && rank < 10) return { value: tens + rank, length: 2, ordinal: true };
    return { value: tens, length: 1 };
  }
  const ones = ONES.get(word);
  return ones === undefined ? null : { value: ones, length: 1 };
}

/** "a hundred and ten", "two thousand", "three hundred": reads on from a figure too ("3 hundred"). */
function wholeNumber(tokens: readonly Token[], at: number): Found | null {
  const article =
    /^(a|an)$/.test(spelledAt(tokens, at)) && /^(hundred|thousand)$/.test(spelledAt(tokens, at + 1));
  const bare = /^(hundred|thousand)$/.test(spelledAt(tokens, at));
  const start = article ? { value: 1, length: 1 } : bare ? { value: 1, length: 0 } : belowHundred(tokens, at);
  if (start === null || start.ordinal === true) return start;
  let { value, length } = start;
  for (const [name, size] of [
    ['hundred', 100],
    ['thousand', 1000],
  ] as const) {
    if (spelledAt(tokens, at + length) !== name) continue;
    value *= size;
    length += 1;
    const and = spelledAt(tokens, at + length) === 'and' ? 1 : 0;
    const rest = belowHundred(tokens, at + length + and);
    const further = rest !== null && spelledAt(tokens, at + length + and + rest.length) === 'hundred';
    if (rest !== null && !further && !fractionFollows(tokens, at + length + and)) {
      value += rest.value;
      length += and + rest.length;
      if (rest.ordinal === true) return { value, length, ordinal: true };
    }
  }
  return { value, length };
}

const DIGITS = new Map([...ONES, ['oh', 0], ['o', 0], ['nought', 0], ['naught', 0]] as const);

/** The decimals after "point": digits one by one, or a number below a hundred ("point seventy five"). */
function decimals(tokens: readonly Token[], at: number): { digits: string; length: number } | null {
  let digits = '';
  let length = 0;
  for (;;) {
    const token = tokens[at + length];
    const digit = token?.kind === 'word' ? DIGITS.get(token.word) : undefined;
    const figure = token?.kind === 'number' && /^\d+$/.test(token.text) ? token.text : undefined;
    const tens = digit === undefined && length === 0 ? belowHundred(tokens, at) : null;
    if (tens !== null && tens.ordinal !== true) return { digits: String(tens.value), length: tens.length };
    if (figure === undefined && (digit === undefined || digit > 9)) break;
    digits += figure ?? String(digit);
    length += 1;
  }
  return length === 0 ? null : { digits, length };
}

const FRACTIONS: ReadonlyMap<string, number> = new Map([
  ['half', 2],
  ['halves', 2],
  ['quarter', 4],
  ['quarters', 4],
  ['eighth', 8],
  ['eighths', 8],
  ['eights', 8],
  ['sixteenth', 16],
  ['sixteenths', 16],
]);

/** A fraction in words: the denominator of a size is a power of two, said as a rank or ("sixty four") plainly. */
function denominator(tokens: readonly Token[], at: number, above: number): Found | null {
  const simple = FRACTIONS.get(spelledAt(tokens, at));
  if (simple !== undefined) return { value: simple, length: 1 };
  const tens = spelledAt(tokens, at);
  const ones = spelledAt(tokens, at + 1);
  if (tens === 'thirty' && /^(two|second|seconds)$/.test(ones) && above % 2 === 1)
    return { value: 32, length: 2 };
  if (tens === 'sixty' && /^(four|fourth|fourths|fours)$/.test(ones) && above % 2 === 1)
    return { value: 64, length: 2 };
  return null;
}

function fraction(tokens: readonly Token[], at: number): (Found & { over: number; above: number }) | null {
  const word = spelledAt(tokens, at);
  const above = /^(a|an)$/.test(word) ? { value: 1, length: 1 } : belowHundred(tokens, at);
  if (above === null || above.ordinal === true) return null;
  // "twenty five sixty four" is 25/64, not 20 and 5/64: the numerator below a hundred is read whole.
  const below = denominator(tokens, at + above.length, above.value);
  if (below === null || above.value >= below.value) return null;
  const length = above.length + below.length;
  return { value: above.value / below.value, length, over: below.value, above: above.value };
}

function fractionFollows(tokens: readonly Token[], at: number): boolean {
  return fraction(tokens, at) !== null || FRACTIONS.has(spelledAt(tokens, at));
}

/** "and a half", "and three quarters", "three eighths" after a whole number; "point nine two" after it. */
function withRest(tokens: readonly Token[], at: number, whole: Found): Found {
  const next = at + whole.length;
  if (spelledAt(tokens, next) === 'point') {
    const rest = decimals(tokens, next + 1);
    if (rest !== null)
      return { value: Number(`${whole.value}.${rest.digits}`), length: whole.length + 1 + rest.length };
  }
  if (spelledAt(tokens, next) === 'and') {
    const rest = fraction(tokens, next + 1);
    if (rest !== null) return { value: whole.value + rest.value, length: whole.length + 1 + rest.length };
  }
  const rest = fraction(tokens, next);
  if (rest !== null && rest.over > 2)
    return {
      value: whole.value + rest.value,
      length: whole.length + rest.length,
      text: `${whole.value} ${rest.above}/${rest.over}`,
    };
  return whole;
}

function leadingPoint(tokens: readonly Token[], at: number): Found | null {
  const zero = /^(oh|nought|naught|zero)$/.test(spelledAt(tokens, at)) ? 1 : 0;
  if (spelledAt(tokens, at + zero) !== 'point') return null;
  const rest = decimals(tokens, at + zero + 1);
  return rest === null ? null : { value: Number(`0.${rest.digits}`), length: zero + 1 + rest.length };
}

/** "half a thou", "half an inch", "quarter inch": a fraction that stands before a unit. */
function fractionOfUnit(tokens: readonly Token[], at: number): Found | null {
  const article = /^(a|an)$/.test(spelledAt(tokens, at)) ? 1 : 0;
  const below = FRACTIONS.get(spelledAt(tokens, at + article));
  if (below === undefined) return null;
  const rest = /^(a|an)$/.test(spelledAt(tokens, at + article + 1)) ? 1 : 0;
  if (!followsAsUnit(spelledAt(tokens, at + article + 1 + rest))) return null;
  return { value: 1 / below, length: article + 1 + rest, text: below === 2 ? '0.5' : `1/${below}` };
}

/** A figure that words complete: "10 and a half", "3 hundred", "1 and 3 quarters". */
function fromFigure(tokens: readonly Token[], at: number): Found | null {
  const token = tokens[at];
  if (token?.kind !== 'number' || token.value === undefined || token.ordinal === true) return null;
  const whole: Found = { value: token.value, length: 1 };
  if (/^(hundred|thousand)$/.test(spelledAt(tokens, at + 1))) {
    const size = spelledAt(tokens, at + 1) === 'hundred' ? 100 : 1000;
    return withRest(tokens, at, { value: token.value * size, length: 2 });
  }
  const below = FRACTIONS.get(spelledAt(tokens, at + 1));
  if (below !== undefined && below > 2 && token.value < below)
    return { value: token.value / below, length: 2, text: `${token.value}/${below}` };
  const read = withRest(tokens, at, whole);
  return read.length > 1 ? read : null;
}

/** "one" and "a" are words of talk first: a number only before a unit or as a part of a longer number. */
function plainOne(tokens: readonly Token[], at: number, found: Found): boolean {
  const word = spelledAt(tokens, at);
  // "press a new one in" counts nothing in inches.
  const isIn =
    spelledAt(tokens, at + 1) === 'in' &&
    !/^(long|wide|deep|thick|dia|diameter)$/.test(spelledAt(tokens, at + 2));
  return found.length === 1 && word === 'one' && (isIn || !followsAsUnit(spelledAt(tokens, at + 1)));
}

function numberAt(tokens: readonly Token[], at: number): Found | null {
  const figure = fromFigure(tokens, at);
  if (figure !== null) return figure;
  if (tokens[at]?.kind !== 'word') return null;
  const point = leadingPoint(tokens, at);
  if (point !== null) return point;
  const part = fractionOfUnit(tokens, at);
  if (part !== null) return part;
  const pure = fraction(tokens, at);
  if (pure !== null && pure.over > 2 && !/^(a|an)$/.test(spelledAt(tokens, at)))
    return { value: pure.value, length: pure.length, text: `${pure.above}/${pure.over}` };
  const rank = RANKS.get(spelledAt(tokens, at));
  if (rank !== undefined && rank > 3) return { value: rank, length: 1, ordinal: true };
  const whole = wholeNumber(tokens, at);
  if (whole === null) return null;
  if (whole.ordinal === true) return whole;
  const full = withRest(tokens, at, whole);
  return plainOne(tokens, at, full) ? null : full;
}

const rankEnding = (value: number): string => {
  const last = value % 10;
  if (Math.floor(value / 10) % 10 === 1) return 'th';
  return last === 1 ? 'st' : last === 2 ? 'nd' : last === 3 ? 'rd' : 'th';
};

/** Turns number words into figures: "ten and a half thou" -> "10.5 thou", "three eighths" -> "3/8". */
export function figures(tokens: readonly Token[]): Token[] {
  const out: Token[] = [];
  for (let at = 0; at < tokens.length;) {
    const token = tokens[at];
    if (token === undefined) break;
    const found = numberAt(tokens, at);
    if (found === null) {
      out.push(token);
      at += 1;
      continue;
    }
    const value = Number(found.value.toFixed(6));
    const text = found.text ?? String(value) + (found.ordinal === true ? rankEnding(value) : '');
    const read: Token = { kind: 'number', text, word: text, before: token.before, value };
    out.push(found.ordinal === true ? { ...read, ordinal: true } : read);
    at += found.length;
  }
  return out;
}
