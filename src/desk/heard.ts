import { doubtsOf, type Doubt, type HeardWord } from '../hearing/sureness/doubts.js';

export type { HeardWord };

/** What a recogniser made of a note: its words, and where it was not sure of them. */
export type Heard = {
  readonly text: string;
  readonly doubts: readonly Doubt[];
  /** The note goes on after so many seconds, and was not listened to from there. */
  readonly onlyTo?: number;
};

/** A word less likely to be right than this is doubted. A guess: no recogniser's figures are quite chances. */
const DOUBTED_BELOW = 0.5;

/** The words of a recogniser that says how sure it is of each, from 0 to 1. Null where it heard none. */
export function heardOf(words: readonly HeardWord[]): Heard | null {
  return words.length === 0 ? null : doubtsOf(words, DOUBTED_BELOW);
}

/** The words of a recogniser that doesn't say how sure it is. Null where it heard none. */
export function plainlyHeard(output: string): Heard | null {
  const text = output.replace(/\s+/g, ' ').trim();
  return text === '' ? null : { text, doubts: [] };
}
