import type { Known } from '../listener.js';

/** Names and odd words of one shop that no lexicon has. */
export type ShopWords = {
  readonly suppliers: readonly string[];
  readonly machines: readonly string[];
  readonly owners: readonly string[];
  /** Learnt words for parts. */
  readonly words: readonly string[];
};

/** The shop's words out of what its record knows, each once, sorted: the same shop gives the same words. */
export function shopWordsOf({ suppliers, machines, owners = [], words = [] }: Known): ShopWords {
  const namesOf = (list: Known['suppliers']): string[] =>
    list.flatMap(({ name, also = [] }) => [name, ...also]);
  return {
    suppliers: sortedOnce(namesOf(suppliers)),
    machines: sortedOnce(namesOf(machines)),
    owners: sortedOnce(namesOf(owners)),
    words: sortedOnce(words.map(({ said }) => said)),
  };
}

const sortedOnce = (list: readonly string[]): string[] => [...new Set(list)].sort();
