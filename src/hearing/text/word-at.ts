import type { Token } from './tokens.js';

/** The word at a place; empty beyond the ends. */
export const wordAt = (tokens: readonly Token[], at: number): string => tokens[at]?.word ?? '';

/** The words of a span, `to` past its end, with a space between them. */
export const wordsOf = (tokens: readonly Token[], { from, to }: { from: number; to: number }): string =>
  tokens
    .slice(from, to)
    .map(({ word }) => word)
    .join(' ');

/** Whether these words stand at a place, one after the other. */
export const standsAt = (tokens: readonly Token[], at: number, words: readonly string[]): boolean =>
  words.every((word, index) => wordAt(tokens, at + index) === word);
