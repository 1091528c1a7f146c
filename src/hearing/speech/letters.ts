import { phonemesOf } from '../repair/phonemes.js';
export const spelledOut = (word: string): readonly string[] => phonemesOf(word);
