import { isVowel } from '../repair/phonemes.js';

type Phonemes = readonly string[];

/** What an R leaves behind in British speech, after a vowel and before none (near, square, cure, fire, power). */
const LENGTHENED: Readonly<Record<string, readonly string[]>> = {
  IH: ['IH', 'AH'],
  EH: ['EH', 'AH'],
  UH: ['AO'],
  AY: ['AY', 'AH'],
  AW: ['AW', 'AH'],
  AA: ['AA'],
  AO: ['AO'],
};

/**
 * The British ways of saying a word whose American way is given, on the American set of phonemes: Wells's lexical sets
 * (Accents of English, 1982) where the two differ by a phoneme: no R but before a vowel, LOT rounded, BATH long, the Y of "tune".
 */
export function britishWays(word: string, way: Phonemes): Phonemes[] {
  const ways = [withoutR, rounded].map((change) => change(word, way));
  const both = rounded(word, withoutR(word, way));
  const long = lengthened(word, withoutR(word, way));
  const gliding = glided(word, both);
  const made = [...ways, both, long, gliding].filter((one) => one.join(' ') !== way.join(' '));
  return [...new Map(made.map((one) => [one.join(' '), one])).values()];
}

function withoutR(_word: string, way: Phonemes): Phonemes {
  return way.flatMap((phoneme, at) => {
    const next = way[at + 1] ?? '';
    if (phoneme === 'R' && at > 0 && !isVowel(next) && isVowel(way[at - 1] ?? '')) return [];
    if (phoneme === 'ER' && at > 0) return [isVowel(next) ? 'ER' : at === way.length - 1 ? 'AH' : 'ER'];
    return next === 'R' && !isVowel(way[at + 2] ?? '') ? (LENGTHENED[phoneme] ?? [phoneme]) : [phoneme];
  });
}

/** LOT: spelt with an o, said AA in America, nearest to AO in Britain. */
function rounded(word: string, way: Phonemes): Phonemes {
  if (!/o|wa|qua/.test(word) || /ar/.test(word)) return way;
  return way.map((phoneme, at) => (phoneme === 'AA' && way[at + 1] !== 'R' ? 'AO' : phoneme));
}

/** BATH: a before f, s, th or an n with a consonant. */
function lengthened(word: string, way: Phonemes): Phonemes {
  if (!/a(ss|st|sk|sp|ft|th|lf|nce|nch|nt)/.test(word)) return way;
  return way.map((phoneme, at) =>
    phoneme === 'AE' && /^(S|F|TH|N)$/.test(way[at + 1] ?? '') ? 'AA' : phoneme,
  );
}

/** "Tune", "new": a Y after T, D and N before the long u. */
function glided(word: string, way: Phonemes): Phonemes {
  if (!/[tdn](u|ew)/.test(word)) return way;
  return way.flatMap((phoneme, at) =>
    /^(T|D|N)$/.test(phoneme) && way[at + 1] === 'UW' ? [phoneme, 'Y'] : [phoneme],
  );
}
