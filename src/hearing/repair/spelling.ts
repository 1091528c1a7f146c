import { distance } from 'fastest-levenshtein';
import { lexicon } from '../../trade/lexicon/load.js';
import { phrases } from '../../trade/lexicon/phrases.js';
import { isListed } from '../text/ordinary-words.js';
import type { Token } from '../text/tokens.js';
import { singulars, verbForms } from '../text/morphology.js';
import { isTradeWord } from '../tagging/part-index.js';

/** Letters below which too many words lie a slip from each other, and from which two slips leave no doubt: found on the tuning corpora. */
const LONG_ENOUGH = 5;
const BEARS_TWO_SLIPS = 8;
/** Two letters that changed places, the commonest slip of the keys, count for less than one letter put for another. */
const SWAP = 0.5;

function tradeWords(): string[] {
  const fromParts = lexicon.parts
    .flatMap((part) => [part.name, ...part.also])
    .flatMap((name) => name.split(/[ -]/));
  const entries = [...phrases.conditions, ...phrases.processes, ...phrases.remedies];
  const fromPhrases = entries.flatMap((entry) => [
    ...entry.said.flatMap((said) => said.split(/[ |()_]+/)),
    ...entry.verbs.flatMap(verbForms),
  ]);
  return [...new Set([...fromParts, ...fromPhrases])].filter(
    (word) => /^[a-z]+$/.test(word) && word.length >= LONG_ENOUGH,
  );
}

let byLength: Map<number, string[]> | null = null;

function index(): Map<number, string[]> {
  const made = new Map<number, string[]>();
  for (const word of tradeWords()) made.set(word.length, [...(made.get(word.length) ?? []), word]);
  return made;
}

const swapped = (a: string, b: string): boolean =>
  a.length === b.length && [...a].sort().join('') === [...b].sort().join('');

/** The one trade word a slip of the keys away, where there is just one. */
function meant(word: string): string | null {
  byLength ??= index();
  const reach = word.length >= BEARS_TWO_SLIPS ? 2 : 1;
  let best: string | null = null;
  let least = reach + 1;
  let ties = 0;
  for (let length = word.length - reach; length <= word.length + reach; length += 1)
    for (const candidate of byLength.get(length) ?? []) {
      if (candidate[0] !== word[0]) continue;
      const raw = distance(word, candidate);
      const steps = raw === 2 && swapped(word, candidate) ? SWAP : raw;
      if (steps > reach) continue;
      if (steps < least) {
        best = candidate;
        least = steps;
        ties = 1;
      } else if (steps === least && candidate !== best) ties += 1;
    }
  return ties === 1 ? best : null;
}

const tradesmen = new Set(phrases.trades.flatMap(({ nouns }) => nouns).flatMap((noun) => noun.split(' ')));

const isKnown = (word: string): boolean =>
  [...singulars(word), word.replace(/^re-?/, '')].some(
    (form) => isListed(form) || isTradeWord(form) || tradesmen.has(form),
  );

/** Puts right slips of the keys in trade words ("mudgaurd"). Words that a dictionary has, and names, are left alone. */
export function spellingSlips(tokens: readonly Token[]): Token[] {
  return tokens.map((token) => {
    const plain = token.kind === 'word' && token.word.length >= LONG_ENOUGH && /^[a-z]+$/.test(token.text);
    if (!plain || isKnown(token.word)) return token;
    const plural = token.word.endsWith('s');
    const word = meant(token.word) ?? (plural ? meant(token.word.slice(0, -1)) : null);
    if (word === null) return token;
    const text = plural && !word.endsWith('s') ? `${word}s` : word;
    return { ...token, text, word: text };
  });
}
