import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';

const MONTH_NAMES: readonly (readonly string[])[] = [
  ['january', 'jan'],
  ['february', 'feb', 'febuary'],
  ['march', 'mar'],
  ['april', 'apr'],
  ['may'],
  ['june', 'jun'],
  ['july', 'jul'],
  ['august', 'aug'],
  ['september', 'sept', 'sep'],
  ['october', 'oct'],
  ['november', 'nov'],
  ['december', 'dec'],
];
const MONTHS = new Map(
  MONTH_NAMES.flatMap((names, index) => names.map((name) => [name, index + 1] as const)),
);

const WEEKDAY_NAMES: readonly (readonly string[])[] = [
  ['monday', 'mon', 'mondays'],
  ['tuesday', 'tue', 'tues', 'tuesdays'],
  ['wednesday', 'wed', 'weds', 'wednesdays'],
  ['thursday', 'thu', 'thur', 'thurs', 'thursdays'],
  ['friday', 'fri', 'fridays'],
  ['saturday', 'sat', 'saturdays'],
  ['sunday', 'sun', 'sundays'],
];
const WEEKDAYS = new Map(
  WEEKDAY_NAMES.flatMap((names, index) => names.map((name) => [name, index + 1] as const)),
);

const RANKS = new Map([
  ['first', 1],
  ['second', 2],
  ['third', 3],
  ['fourth', 4],
  ['fifth', 5],
]);

/** Short names that are everyday words too; they count as dates beside a number or a capital alone. */
const ALSO_WORDS = /^(mar|may|march|sat|sun|mon|wed|dec|jan)$/;

/** Whether the word is written with a capital (as a name of a day or month is) or can be nothing else. */
export const isPlainName = (token: Token | undefined): boolean =>
  token !== undefined && (!ALSO_WORDS.test(token.word) || /^[A-Z]/.test(token.text));

export const monthAt = (tokens: readonly Token[], at: number): number | undefined =>
  tokens[at]?.kind === 'word' ? MONTHS.get(wordAt(tokens, at)) : undefined;

/** 1 (Monday) to 7. */
export const weekdayAt = (tokens: readonly Token[], at: number): number | undefined =>
  tokens[at]?.kind === 'word' ? WEEKDAYS.get(wordAt(tokens, at)) : undefined;

/** Whether it is the name of a month or of a day of the week. */
export const namesDayOrMonth = ({ kind, word }: Token): boolean =>
  kind === 'word' && (MONTHS.has(word) || WEEKDAYS.has(word));

/** A day of the month: "14", "14th", "first". */
export function dayAt(tokens: readonly Token[], at: number): { day: number; ordinal: boolean } | undefined {
  const token = tokens[at];
  if (token === undefined) return undefined;
  if (token.kind === 'word') {
    const rank = RANKS.get(token.word);
    return rank === undefined ? undefined : { day: rank, ordinal: true };
  }
  if (token.kind !== 'number' || !/^\d{1,2}(st|nd|rd|th)?$/i.test(token.text)) return undefined;
  const day = token.value ?? 0;
  return day >= 1 && day <= 31 ? { day, ordinal: token.ordinal === true } : undefined;
}

/** "first", "second", "last", "3rd" of something. */
export function rankAt(tokens: readonly Token[], at: number): number | 'last' | undefined {
  const token = tokens[at];
  if (token?.word === 'last') return 'last';
  if (token?.kind === 'word') return RANKS.get(token.word);
  return token?.ordinal === true ? token.value : undefined;
}

export function yearAt(tokens: readonly Token[], at: number): number | undefined {
  const text = tokens[at]?.text ?? '';
  return /^(19|20)\d\d$/.test(text) ? Number(text) : undefined;
}

/** A count before a unit of time: "3", "a", "a couple of", "two to three" (the later). */
export function countAt(
  tokens: readonly Token[],
  at: number,
): { count: number; length: number; range: boolean } | undefined {
  const word = wordAt(tokens, at);
  const token = tokens[at];
  if (token?.kind === 'number' && token.ordinal !== true && token.value !== undefined) {
    const joint = wordAt(tokens, at + 1);
    const upper = tokens[at + 2];
    if (
      /^(-|–|to|or)$/.test(joint) &&
      upper?.kind === 'number' &&
      upper.value !== undefined &&
      upper.value > token.value
    )
      return { count: upper.value, length: 3, range: true };
    return { count: token.value, length: 1, range: false };
  }
  if (/^(a|an)$/.test(word)) {
    if (wordAt(tokens, at + 1) === 'couple') {
      const of = wordAt(tokens, at + 2) === 'of' ? 1 : 0;
      return { count: 2, length: 2 + of, range: false };
    }
    return { count: 1, length: 1, range: false };
  }
  if (word === 'one') return { count: 1, length: 1, range: false };
  if (word === 'couple') return { count: 2, length: wordAt(tokens, at + 1) === 'of' ? 2 : 1, range: false };
  return undefined;
}

export type TimeUnit = 'days' | 'weeks' | 'months' | 'years' | 'fortnights' | 'working days';

/** A unit of time that a date can be counted in. */
export function unitAt(tokens: readonly Token[], at: number): { unit: TimeUnit; length: number } | undefined {
  const word = wordAt(tokens, at);
  if (/^(working|business)$/.test(word) && /^days?$/.test(wordAt(tokens, at + 1)))
    return { unit: 'working days', length: 2 };
  if (/^days?$/.test(word)) return { unit: 'days', length: 1 };
  if (/^(weeks?|wks?)$/.test(word)) return { unit: 'weeks', length: 1 };
  if (/^months?$/.test(word)) return { unit: 'months', length: 1 };
  if (/^(years?|yrs?)$/.test(word)) return { unit: 'years', length: 1 };
  if (/^fortnights?$/.test(word)) return { unit: 'fortnights', length: 1 };
  return undefined;
}
