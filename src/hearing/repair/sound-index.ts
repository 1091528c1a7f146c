import { lexicon, type Part } from '../../trade/lexicon/load.js';
import { phrasePhonemes, soundDistance, sounded, type Phonemes, type Sounded } from './phonemes.js';

type Sounding = { part: Part; name: string; plain: boolean; sounds: Sounded; mask: number };

/** Longer names are never one slip; shorter sounds are like too many others. */
const MOST_WORDS = 4;
const FEWEST_PHONEMES = 3;
/** Kinds of sound in one and not in the other, beyond which a name is passed over unheard; found on the spoken half of the tuning corpora. */
const MOST_KINDS_APART = 2;

const plainWords = (name: string): string[] => name.split(/[ -]/).filter((word) => /^[a-z']+$/.test(word));

/** One bit for each kind of sound in it, so that names with other sounds are passed over fast. */
const KINDS = 'P B|T D|K G|S Z|F V TH DH|CH JH SH ZH|M|N NG|L|R|W|Y|HH'
  .split('|')
  .map((group) => new Set(group.split(' ')));
const maskOf = (phonemes: Phonemes): number => {
  let mask = 0;
  for (const phoneme of phonemes) {
    const kind = KINDS.findIndex((group) => group.has(phoneme));
    if (kind >= 0) mask |= 1 << kind;
  }
  return mask;
};

function bits(value: number): number {
  let left = value;
  let count = 0;
  while (left !== 0) {
    left &= left - 1;
    count += 1;
  }
  return count;
}

function build(): Map<number, Sounding[]> {
  const byLength = new Map<number, Sounding[]>();
  for (const part of lexicon.parts)
    for (const name of [part.name, ...part.also]) {
      const words = plainWords(name);
      if (words.length === 0 || words.length > MOST_WORDS) continue;
      const phonemes = phrasePhonemes(words);
      if (phonemes.length < FEWEST_PHONEMES) continue;
      byLength.set(phonemes.length, [
        ...(byLength.get(phonemes.length) ?? []),
        { part, name, plain: words.length === 1, sounds: sounded(phonemes), mask: maskOf(phonemes) },
      ]);
    }
  return byLength;
}

let index: Map<number, Sounding[]> | null = null;

export type Sounds = { part: Part; name: string; distance: number; share: number };

/** The part name that sounds nearest to words in a row; `share` is the distance by the longer one's length. */
export function soundsLike(words: readonly string[], limit: number): Sounds | null {
  index ??= build();
  const heard = phrasePhonemes(words);
  if (heard.length < FEWEST_PHONEMES) return null;
  const mask = maskOf(heard);
  const sounds = sounded(heard);
  let best: Sounds | null = null;
  const reach = Math.max(1, Math.ceil(heard.length * limit));
  for (let length = heard.length - reach; length <= heard.length + reach; length += 1)
    for (const candidate of index.get(length) ?? []) {
      if (words.length === 1 && !candidate.plain) continue;
      if (bits(candidate.mask ^ mask) > MOST_KINDS_APART) continue;
      const longer = Math.max(heard.length, length);
      const distance = soundDistance(sounds, candidate.sounds, (best === null ? limit : best.share) * longer);
      const share = distance / longer;
      if (share <= limit && (best === null || share < best.share))
        best = { part: candidate.part, name: candidate.name, distance, share };
    }
  return best;
}

/** Of a part's names, the one nearest in sound to what was heard. */
export function nearestName(part: Part, words: readonly string[]): string {
  const heard = sounded(phrasePhonemes(words));
  return [part.name, ...part.also]
    .map((name) => ({ name, distance: soundDistance(heard, sounded(phrasePhonemes(plainWords(name)))) }))
    .reduce((best, one) => (one.distance < best.distance ? one : best)).name;
}
