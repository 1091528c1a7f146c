import { nameIndex, namesIn } from './tagging/name-index.js';
import { isTradeWord } from './tagging/part-index.js';
import { phraseKey } from './tagging/phrase-index.js';
import { isEveryday } from './text/ordinary-words.js';
import { figures } from './text/number-words.js';
import { tokenise } from './text/tokens.js';

/** Short words of a title ('the', 'old', '350') name no machine. */
const WORD_AT_LEAST = 4;

/**
 * Which of some machines words name, by their places in the list: by title, with or without whose it is ('Mrs Dale's
 * Ketterby'), or by a word that is no everyday one and in no other title; whole words alone. Of names one within the other
 * the longer counts.
 */
export function machinesNamed(text: string, titles: readonly string[]): number[] {
  const names = new Map<string, number[]>();
  for (const [at, title] of titles.entries())
    for (const key of new Set(namesOf(title, titles).map(phraseKey)))
      if (key !== '') names.set(key, [...(names.get(key) ?? []), at]);
  const found = namesIn(figures(tokenise(text)), nameIndex([...names]));
  const outer = found.filter(
    ({ from, to }) =>
      !found.some((other) => other.from <= from && other.to >= to && other.to - other.from > to - from),
  );
  return [...new Set(outer.flatMap(({ means }) => means))].toSorted((a, b) => a - b);
}

/** How a machine is called: by its title, with or without whose it is, or by a word that is nothing else and in no other title. */
export function namesOf(title: string, titles: readonly string[]): string[] {
  const others = titles.filter((other) => other !== title).flatMap(wordsOf);
  const own = wordsOf(title).filter(
    (word) =>
      word.length >= WORD_AT_LEAST && !isEveryday(word) && !isTradeWord(word) && !others.includes(word),
  );
  return [title, unowned(title), ...own.filter((word) => wordsOf(unowned(title)).includes(word))];
}

const wordsOf = (title: string): string[] => title.toLowerCase().split(/[^\p{L}\p{N}]+/u);

/** A title without whose machine it is. */
const unowned = (title: string): string => title.replace(/^.*[’']s\s+(?=\S)/, '');
