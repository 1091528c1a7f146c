import { isRare, type Surroundings } from './surroundings.js';

/**
 * Whether the word right after a thing's name is one that neither dictionary nor trade has ("clutch wazzock"): it may well
 * belong to the name, and then another thing is meant. Names of people and firms begin with a capital, and are none.
 */
export function strangelyNamed({ anchors, strangers, tokens }: Surroundings, at: number): boolean {
  const anchor = anchors[at] ?? null;
  if (anchor === null) return false;
  return strangers.some((stray) => {
    const token = tokens[stray.from];
    return (
      stray.from === anchor.to && token !== undefined && isRare(token.word) && /^\p{Ll}/u.test(token.text)
    );
  });
}
