import { dictionary } from 'cmu-pronouncing-dictionary';
import { pronunciations as tradeWords } from '../../trade/lexicon/pronunciations.js';
import { isVowel } from '../repair/phonemes.js';
import { britishWays } from './british.js';
import { spelledOut } from './letters.js';
import { soundedWords } from './sounded-words.js';

/** Phonemes of the CMU dictionary (ARPAbet) without stress, in order. */
export type Phonemes = readonly string[];

/**
 * The ways a word is said, the likeliest first, never none: as the trade's list, the CMU dictionary or our own list has it;
 * else made from a word that they have; else from its letters. British ways are added to American ones.
 */
export function waysToSay(word: string): Phonemes[] {
  const ways = known(word) ?? inflected(word) ?? prefixed(word) ?? compound(word) ?? [spelledOut(word)];
  const all = ways.flatMap((way) => [way, ...britishWays(word, way)]);
  return [...new Map(all.map((way) => [way.join(' '), way])).values()];
}

/** Whether a word is said as a list has it, or made from words that lists have. */
export const isKnown = (word: string): boolean =>
  (known(word) ?? inflected(word) ?? prefixed(word) ?? compound(word)) !== null;

function known(word: string): Phonemes[] | null {
  const ours = tradeWords.get(word) ?? soundedWords.get(word);
  const general = ['', '(2)', '(3)'].flatMap((mark) => {
    const entry = Object.hasOwn(dictionary, word + mark) ? dictionary[word + mark] : undefined;
    return entry === undefined ? [] : [entry.replace(/ *#.*$|\d/g, '').split(' ')];
  });
  const all = ours === undefined ? general : [ours, ...general];
  return all.length > 0 ? all : null;
}

const HISSES = new Set('S Z SH ZH CH JH'.split(' '));
const VOICELESS = new Set('P T K F TH S SH CH HH'.split(' '));

/** Endings, with what is put in their place to have the word that they stand on, and how they are said after its last sound. */
const ENDINGS: readonly { ending: RegExp; stems: readonly string[]; said: (last: string) => string[] }[] = [
  {
    ending: /('s|s'|s)$/,
    stems: [''],
    said: (last) => (HISSES.has(last) ? ['IH', 'Z'] : [VOICELESS.has(last) ? 'S' : 'Z']),
  },
  { ending: /es$/, stems: [''], said: (last) => (HISSES.has(last) ? ['IH', 'Z'] : ['Z']) },
  { ending: /ies$/, stems: ['y'], said: () => ['Z'] },
  {
    ending: /ed$/,
    stems: ['e', ''],
    said: (last) => (last === 'T' || last === 'D' ? ['IH', 'D'] : [VOICELESS.has(last) ? 'T' : 'D']),
  },
  { ending: /ing$/, stems: ['e', ''], said: () => ['IH', 'NG'] },
  { ending: /ers?$/, stems: ['e', ''], said: () => ['ER'] },
  { ending: /n't$/, stems: [''], said: () => ['AH', 'N', 'T'] },
  { ending: /'ve$/, stems: [''], said: () => ['AH', 'V'] },
  { ending: /'ll$/, stems: [''], said: () => ['AH', 'L'] },
];

function inflected(word: string): Phonemes[] | null {
  for (const { ending, stems, said } of ENDINGS) {
    if (!ending.test(word)) continue;
    const head = word.replace(ending, '');
    const undoubled = /([^aeiou])\1$/.test(head) ? [head.slice(0, -1)] : [];
    for (const stem of [...stems.map((letters) => head + letters), ...undoubled]) {
      if (stem.length < 3) continue;
      const ways = known(stem) ?? prefixed(stem) ?? compound(stem);
      if (ways) return ways.map((way) => [...way, ...said(way.at(-1) ?? '')]);
    }
  }
  return null;
}

const PREFIXES: readonly [string, Phonemes][] = [
  ['re', ['R', 'IY']],
  ['un', ['AH', 'N']],
  ['de', ['D', 'IY']],
  ['mis', ['M', 'IH', 'S']],
];

function prefixed(word: string): Phonemes[] | null {
  for (const [letters, said] of PREFIXES) {
    const rest = word.slice(letters.length);
    if (!word.startsWith(letters) || rest.length < 4) continue;
    const ways = known(rest) ?? inflected(rest);
    if (ways) return ways.map((way) => [...said, ...way]);
  }
  return null;
}

/** A compound is said as its two words: "chainguard". The most even cut is the likeliest. */
function compound(word: string): Phonemes[] | null {
  const cuts = Array.from({ length: Math.max(0, word.length - 5) }, (_, index) => index + 3);
  const middle = word.length / 2;
  cuts.sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
  for (const cut of cuts) {
    const [left] = known(word.slice(0, cut)) ?? [];
    const right = word.slice(cut);
    const ways = known(right) ?? (right.length > 4 ? simplePlural(right) : null);
    if (left && ways && left.some(isVowel)) return ways.map((way) => [...left, ...way]);
  }
  return null;
}

function simplePlural(word: string): Phonemes[] | null {
  if (!word.endsWith('s')) return null;
  return (
    known(word.slice(0, -1))?.map((way) => [...way, VOICELESS.has(way.at(-1) ?? '') ? 'S' : 'Z']) ?? null
  );
}
