import { dictionary } from 'cmu-pronouncing-dictionary';
import { pronunciations } from '../../trade/lexicon/pronunciations.js';

export type Phonemes = readonly string[];

const VOWELS = new Set('AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW'.split(' '));
export const isVowel = (phoneme: string): boolean => VOWELS.has(phoneme);

/** British speech sounds an R before a vowel only. */
const unsounded = (phonemes: Phonemes): string[] =>
  phonemes.filter((phoneme, at) => phoneme !== 'R' || isVowel(phonemes[at + 1] ?? ''));

/** Letters to sounds, roughly, longest spelling first: for words that no dictionary has. */
const SPELLINGS: [string, string][] = [
  ['tion', 'SH AH N'],
  ['sion', 'SH AH N'],
  ['eigh', 'EY'],
  ['ough', 'AO'],
  ['augh', 'AO'],
  ['tch', 'CH'],
  ['igh', 'AY'],
  ['ch', 'CH'],
  ['sh', 'SH'],
  ['th', 'TH'],
  ['ph', 'F'],
  ['ck', 'K'],
  ['ng', 'NG'],
  ['qu', 'K W'],
  ['wh', 'W'],
  ['kn', 'N'],
  ['wr', 'R'],
  ['ee', 'IY'],
  ['ea', 'IY'],
  ['oo', 'UW'],
  ['ou', 'AW'],
  ['ow', 'OW'],
  ['oi', 'OY'],
  ['oy', 'OY'],
  ['ai', 'EY'],
  ['ay', 'EY'],
  ['au', 'AO'],
  ['aw', 'AO'],
  ['oa', 'OW'],
  ['er', 'ER'],
  ['ir', 'ER'],
  ['ur', 'ER'],
  ['ar', 'AA'],
  ['or', 'AO'],
  ['dge', 'JH'],
  ['bb', 'B'],
  ['dd', 'D'],
  ['ff', 'F'],
  ['gg', 'G'],
  ['ll', 'L'],
  ['mm', 'M'],
  ['nn', 'N'],
  ['pp', 'P'],
  ['rr', 'R'],
  ['ss', 'S'],
  ['tt', 'T'],
  ['zz', 'Z'],
  ['a', 'AE'],
  ['b', 'B'],
  ['c', 'K'],
  ['d', 'D'],
  ['e', 'EH'],
  ['f', 'F'],
  ['g', 'G'],
  ['h', 'HH'],
  ['i', 'IH'],
  ['j', 'JH'],
  ['k', 'K'],
  ['l', 'L'],
  ['m', 'M'],
  ['n', 'N'],
  ['o', 'AA'],
  ['p', 'P'],
  ['r', 'R'],
  ['s', 'S'],
  ['t', 'T'],
  ['u', 'AH'],
  ['v', 'V'],
  ['w', 'W'],
  ['x', 'K S'],
  ['y', 'IY'],
  ['z', 'Z'],
];
const bySpelling = [...SPELLINGS].sort((a, b) => b[0].length - a[0].length);

function spelled(word: string): string[] {
  const sounds: string[] = [];
  const plain = word.replace(/[^a-z]/g, '').replace(/([^aeiou])e$/, '$1');
  for (let at = 0; at < plain.length;) {
    const found = bySpelling.find(([letters]) => plain.startsWith(letters, at));
    if (found === undefined) break;
    sounds.push(...found[1].split(' '));
    at += found[0].length;
  }
  return sounds;
}

const listed = (word: string): string[] | undefined => {
  const ours = pronunciations.get(word);
  if (ours !== undefined) return [...ours];
  const general = Object.hasOwn(dictionary, word) ? dictionary[word] : undefined;
  return general?.replace(/\d/g, '').split(' ');
};

/** A compound of two known words is said as both ("headlamp"). */
function compound(word: string): string[] | undefined {
  for (let cut = 3; cut <= word.length - 3; cut += 1) {
    const [left, right] = [listed(word.slice(0, cut)), listed(word.slice(cut))];
    if (left !== undefined && right !== undefined) return [...left, ...right];
  }
  return undefined;
}

function plural(word: string): string[] | undefined {
  if (!word.endsWith('s')) return undefined;
  const stem = listed(word.slice(0, -1)) ?? (word.endsWith('es') ? listed(word.slice(0, -2)) : undefined);
  return stem === undefined ? undefined : [...stem, 'Z'];
}

const cache = new Map<string, Phonemes>();
const MOST = 20_000;

/** How a word is said, in ARPAbet phonemes without stress, British fashion: by our list, the CMU dictionary, or its spelling. */
export function phonemesOf(word: string): Phonemes {
  const known = cache.get(word);
  if (known !== undefined) return known;
  const said = unsounded(listed(word) ?? plural(word) ?? compound(word) ?? spelled(word));
  if (cache.size < MOST) cache.set(word, said);
  return said;
}

/** How words in a row are said. */
export const phrasePhonemes = (words: readonly string[]): Phonemes =>
  words.flatMap((word) => phonemesOf(word));

const PAIRS =
  'P B|T D|K G|S Z|F V|CH JH|SH ZH|TH DH|F TH|N M|N NG|S SH|D DH|T TH|W V|SH CH|B V|JH ZH|L R'.split('|');
const near = new Set(PAIRS.flatMap((pair) => [pair, pair.split(' ').reverse().join(' ')]));

function change(a: string, b: string): number {
  if (a === b) return 0;
  if (isVowel(a) && isVowel(b)) return /^(AH|IH|ER)$/.test(a) || /^(AH|IH|ER)$/.test(b) ? 0.3 : 0.5;
  return near.has(`${a} ${b}`) ? 0.45 : 1;
}

const WEAK = new Set(['AH', 'IH', 'HH', 'T', 'D', 'ER', 'Y', 'Z', 'S', 'W', 'L']);
const drop = (phoneme: string): number => (WEAK.has(phoneme) ? 0.55 : isVowel(phoneme) ? 0.7 : 0.9);

const CODES = [...VOWELS, ...'B CH D DH F G HH JH K L M N NG P R S SH T TH V W Y Z ZH'.split(' ')];
const codeOf = new Map(CODES.map((phoneme, code) => [phoneme, code]));
const changes = Float64Array.from(CODES.flatMap((a) => CODES.map((b) => change(a, b))));
const drops = Float64Array.from(CODES.map(drop));

/** A way of saying, as small numbers, for quick comparison. */
export type Sounded = Uint8Array;
export const sounded = (phonemes: Phonemes): Sounded =>
  Uint8Array.from(phonemes.map((phoneme) => codeOf.get(phoneme) ?? 0));

const LONGEST = 64;
let row = new Float64Array(LONGEST + 1);
let next = new Float64Array(LONGEST + 1);

/** Weighted edit distance between two ways of saying: like sounds cost less. Symmetric, in phonemes; Infinity above `limit`. */
export function soundDistance(a: Sounded, b: Sounded, limit = Infinity): number {
  if (a.length > LONGEST || b.length > LONGEST) return Infinity;
  row[0] = 0;
  for (let at = 0; at < b.length; at += 1) row[at + 1] = (row[at] ?? 0) + (drops[b[at] ?? 0] ?? 1);
  for (const from of a) {
    const dropped = drops[from] ?? 1;
    next[0] = (row[0] ?? 0) + dropped;
    let least = next[0];
    for (let at = 0; at < b.length; at += 1) {
      const to = b[at] ?? 0;
      const changed = (row[at] ?? 0) + (changes[from * CODES.length + to] ?? 1);
      const value = Math.min(changed, (row[at + 1] ?? 0) + dropped, (next[at] ?? 0) + (drops[to] ?? 1));
      next[at + 1] = value;
      if (value < least) least = value;
    }
    if (least > limit) return Infinity;
    [row, next] = [next, row];
  }
  return row[b.length] ?? 0;
}
