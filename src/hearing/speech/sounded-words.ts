import { readFileSync } from 'node:fs';

/**
 * How words of the trade are said that neither the trade's own list nor the CMU dictionary has and that aren't made of words they have.
 * Lines of the file: the word, then its phonemes.
 */
export const soundedWords: ReadonlyMap<string, readonly string[]> = new Map(
  readFileSync(new URL('./sounded-words.txt', import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => line.split(' '))
    .map(([word = '', ...phonemes]) => [word, phonemes]),
);
