import type { Token } from '../text/tokens.js';
import type { Match } from './phrase-index.js';

/** A shop's own names by their words run together, with the letters, one to three, that they begin with. */
export type NameIndex<T> = { keys: ReadonlyMap<string, T>; openings: ReadonlySet<string> };

/** More words than a name at a bench has. */
const LONGEST = 8;
const OPENING = 3;

/** An index of keys (`phraseKey`); of two the same the last counts. */
export function nameIndex<T>(named: readonly (readonly [key: string, means: T])[]): NameIndex<T> {
  const keys = new Map(named);
  const openings = new Set<string>();
  for (const key of keys.keys())
    for (let length = 1; length <= OPENING; length += 1) openings.add(key.slice(0, length));
  return { keys, openings };
}

/** Every run of tokens that is one of the names. */
export function namesIn<T>(tokens: readonly Token[], { keys, openings }: NameIndex<T>): Match<T>[] {
  const found: Match<T>[] = [];
  if (keys.size === 0) return found;
  tokens.forEach(({ word }, from) => {
    if (!openings.has(word.slice(0, OPENING))) return;
    let key = '';
    for (let to = from; to < Math.min(tokens.length, from + LONGEST); to += 1) {
      const token = tokens[to];
      if (token === undefined || token.kind === 'mark') break;
      key += token.word;
      const means = keys.get(key);
      if (means !== undefined) found.push({ from, to: to + 1, means });
    }
  });
  return found;
}

/** Makes something of a list once for as long as the list stays the same, as the shop's do from message to message. */
export function remembered<Listed, Made>(
  make: (list: readonly Listed[]) => Made,
): (list: readonly Listed[]) => Made {
  let last: { said: string; made: Made } | null = null;
  return (list) => {
    const said = JSON.stringify(list);
    if (last?.said !== said) last = { said, made: make(list) };
    return last.made;
  };
}
