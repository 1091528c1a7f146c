import type { Token } from './tokens.js';

/** The word at a place; empty beyond the ends. */
export const wordAt = (tokens: readonly Token[], at: number): string => tokens[at]?.word ?? '';

/** The words of a span, `to` past its end, with a space between them. */
export const wordsOf = (tokens: readonly Token[], { from, to }: { from: number; to: number }): string =>
  tokens
    .slice(from, to)
    .map(({ word }) => word)
    .join(' ');

/**
 * The words before a place, at most so many, the nearest last. How far a rule looks back was found on the tuning corpora:
 * as far as talk there puts what the rule looks for, and no further.
 */
export const wordsBefore = (tokens: readonly Token[], at: number, most: number): string[] =>
  tokens.slice(Math.max(0, at - most), at).map(({ word }) => word);

/** Whether these words stand at a place, one after the other. */
export const standsAt = (tokens: readonly Token[], at: number, words: readonly string[]): boolean =>
  words.every((word, index) => wordAt(tokens, at + index) === word);
