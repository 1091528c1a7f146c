import type { JobState } from '../../job/state.js';

const wordsOf = (name: string): string[] => name.split(/[ -]/).filter((word) => word.length > 2);

/** Parts on a job's list that share a word with a name, those that share its last word first. */
export function likeNamed(name: string, { items }: JobState): string[] {
  const words = wordsOf(name);
  const head = words.at(-1) ?? '';
  const closeness = (part: string): number =>
    wordsOf(part).filter((word) => words.includes(word)).length + (wordsOf(part).at(-1) === head ? 2 : 0);
  const parts = Object.values(items).flatMap((item) => item?.part ?? []);
  return [...new Set(parts)]
    .filter((part) => part !== name && closeness(part) > 0)
    .sort((a, b) => closeness(b) - closeness(a));
}
