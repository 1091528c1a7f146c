import type { JobState } from '../../job/state.js';

const wordsOf = (name: string): string[] => name.split(/[ -]/).filter((word) => word.length > 2);

/** 'lamp' and 'headlamp' are of one kind. */
const sameKind = (one: string, other: string): boolean =>
  one !== '' && other !== '' && (one.endsWith(other) || other.endsWith(one));

/** Parts on a job's list that share a word with a name, those of its kind first. */
export function likeNamed(name: string, { items }: JobState): string[] {
  const words = wordsOf(name);
  const head = words.at(-1) ?? '';
  const closeness = (part: string): number =>
    wordsOf(part).filter((word) => words.includes(word)).length +
    (sameKind(wordsOf(part).at(-1) ?? '', head) ? 2 : 0);
  const parts = Object.values(items).flatMap((item) => item?.part ?? []);
  return [...new Set(parts)]
    .filter((part) => part !== name && closeness(part) > 0)
    .sort((a, b) => closeness(b) - closeness(a));
}
