/** What may stand between the figures of a number as people write it. */
const GAP = String.raw`[\s\u00a0()./\-–—]*`;
/** Fewer figures are no telephone number. */
const SHORTEST = 6;
/** What is left of a number without its country's code has as many figures at least. */
const SHORTEST_NATIONAL = 7;
/** A country's code has one to three figures (ITU-T E.164, 6.1). */
const CODE_LENGTHS = [1, 2, 3];

/**
 * A telephone number in people's words, by its figures: with or without the country's code or the nought before the
 * area's, however it is spaced, dotted or bracketed. Null where it is no such number.
 */
export function phonePattern(number: string): RegExp | null {
  if (/\p{L}/u.test(number)) return null;
  const digits = number.replace(/\D/g, '');
  if (digits.length < SHORTEST) return null;
  const isAbroad = /^\s*\+/.test(number) || /^(?:00|44\d{9,10}$)/.test(digits);
  const core = digits.replace(/^0+/, '');
  const cores = isAbroad
    ? [core, ...CODE_LENGTHS.map((length) => core.slice(length).replace(/^0/, ''))]
    : [core];
  const spelt = cores
    .filter(({ length }, at) => at === 0 || length >= SHORTEST_NATIONAL)
    .map((each) => [...each].join(GAP));
  const country = String.raw`(?:(?:\+|00)${GAP}\d{1,3}${GAP}|44${GAP})?`;
  const bracket = String.raw`(?:\((?=\d{2,6}\)${GAP}\d))?`;
  return new RegExp(`(?<!\\d)${bracket}${country}(?:0${GAP})?(?:${spelt.join('|')})(?!\\d)`, 'g');
}
