import { expand, type Phrases } from '../../trade/lexicon/phrases.js';
import type { Part } from '../../trade/lexicon/schema.js';
import { verbForms } from '../text/morphology.js';
import type { PhraseLists } from './grammar.js';
import type { ShopWords } from './shop-words.js';

/**
 * How much more often than the rest the first, second … wordings of a list are said: the lexicon lists the usual ones first,
 * and words in use fall off about as one by their rank (Zipf).
 */
const TIMES_BY_RANK = [12, 8, 6, 5, 4, 4, 3, 3, 3, 2, 2, 2, 2, 2];
/** A part with many everyday names is one that is much spoken of. */
const NAMES_COUNTED = 6;

type Saying = { said: string[]; nouns: string[]; verbs: string[] };

/** The lists that patterns.yaml may name, from the lexicon, its phrases and the shop's own words. */
export function phraseLists(parts: readonly Part[], phrases: Phrases, shop: ShopWords): PhraseLists {
  const named = [...parts.flatMap(namesOf), ...shop.words];
  const faults = phrases.conditions.filter(({ means }) => means !== 'good');
  const lists = {
    part: named,
    parts: [...named.map(pluralOf), ...parts.flatMap(({ plural }) => plural ?? [])],
    place: phrases.places.flatMap(said),
    fault: faults.flatMap((one) => [...said(one), ...ranked(one.verbs.map(past))]),
    'fault-noun': faults.flatMap(({ nouns }) => nouns),
    'good-state': phrases.conditions.filter(({ means }) => means === 'good').flatMap(said),
    do: [...phrases.processes, ...phrases.remedies].flatMap(({ verbs }) => ranked(verbs)),
    done: [...phrases.processes, ...phrases.remedies].flatMap(({ verbs }) => ranked(verbs.map(past))),
    doing: [...phrases.processes, ...phrases.remedies].flatMap(({ verbs }) => ranked(verbs.map(present))),
    remedy: [...phrases.remedies, ...phrases.processes].flatMap(said),
    trade: phrases.trades.flatMap(({ nouns, things, persons }) => [
      ...nouns,
      ...things.map((thing, index) => `${thing} ${persons[index % persons.length] ?? 'man'}`),
    ]),
    phrase: phrases['set-phrases'].flatMap(said),
    supplier: shop.suppliers,
    machine: shop.machines,
    owner: ['the owner', 'owner', ...shop.owners, ...shop.owners, ...shop.owners],
    ...actLists(phrases),
  };
  return Object.fromEntries(Object.entries(lists).map(([name, list]) => [name, speakable(list)]));
}

function actLists(phrases: Phrases): Record<string, string[]> {
  const acts = new Map<string, string[]>();
  for (const act of phrases.acts) {
    const name = `act-${act.means}`;
    acts.set(name, [...(acts.get(name) ?? []), ...said(act), ...act.verbs.map(past)]);
  }
  return Object.fromEntries(acts);
}

/** Wordings in the order of their use, each as often as its rank has it. */
const ranked = (list: readonly string[]): string[] =>
  list.flatMap((one, rank) => Array.from({ length: TIMES_BY_RANK[rank] ?? 1 }, () => one));

/** Of the many ways to say a thing, the usual ones: more of them would take the weight from the words that are mostly said. */
const USUAL = 100;

const said = (saying: Saying): string[] => ranked(saying.said.flatMap(expand).slice(0, USUAL));
const past = (verb: string): string => verbForms(verb)[2] ?? verb;
const present = (verb: string): string => verbForms(verb)[3] ?? verb;
const namesOf = ({ name, also }: Part): string[] => [
  ...Array.from({ length: 3 + 2 * Math.min(also.length, NAMES_COUNTED) }, () => name),
  ...also.flatMap((one, index) => (index < 2 ? [one, one] : [one])),
];

function pluralOf(name: string): string {
  if (/(ss|s|x|z|ch|sh)$/.test(name)) return /ss$|[xz]$|[cs]h$/.test(name) ? `${name}es` : name;
  return /[^aeiou]y$/.test(name) ? `${name.slice(0, -1)}ies` : `${name}s`;
}

/** What can be said aloud as words: written signs, figures and abbreviations without a vowel are left out. */
function speakable(list: readonly string[]): string[] {
  return list.map(asSpoken).filter((phrase): phrase is string => phrase !== null);
}

/** Written without a vowel, said with one. */
const TITLES = new Set(['mr', 'mrs', 'ms', 'dr']);

/** A phrase in lower case, its hyphens spaces; null where it holds more than words. */
export function asSpoken(phrase: string): string | null {
  const words = phrase
    .toLowerCase()
    .replace(/’/g, "'")
    .replace(/&/g, ' and ')
    .replace(/\bre-/g, 're')
    .replace(/[-,]/g, ' ')
    .replace(/\b(mrs?|ms|dr)\./g, '$1')
    .trim()
    .split(/\s+/);
  const areWords = words.every(
    (word) =>
      TITLES.has(word) || (/^'?[a-z][a-z']*$/.test(word) && /[aeiouy]|^'(s|d|m|ll|ve|re|t)$/.test(word)),
  );
  return areWords && !words.includes('x') ? words.join(' ') : null;
}
