import type { Chunk } from './chunk.js';

/** Of readings of the same words, which comes first: amounts before names, names before what is said of them. */
const RANK: Record<Chunk['kind'], number> = {
  date: 9,
  money: 9,
  measure: 8,
  stored: 8,
  item: 8,
  correction: 8,
  aside: 7,
  machine: 7,
  owner: 7,
  supplier: 7,
  topic: 6,
  part: 6,
  pronoun: 5,
  act: 5,
  condition: 4,
  remedy: 3,
  process: 3,
  count: 3,
  quantity: 2,
  place: 2,
  denial: 2,
  also: 1,
  break: 1,
  and: 1,
  of: 1,
  article: 1,
  copula: 1,
  word: 0,
};

const weight = (chunk: Chunk): number => {
  const length = chunk.to - chunk.from;
  return length * length * 10 + RANK[chunk.kind] - (chunk.kind === 'word' ? 5 : 0);
};

/**
 * The set of chunks that covers all tokens once and weighs most: long matches beat short ones, the rank decides between
 * equals. `proposals` must hold a chunk of length one for every token.
 */
export function chooseChunks(proposals: readonly Chunk[], length: number): Chunk[] {
  const ending: Chunk[][] = Array.from({ length: length + 1 }, () => []);
  for (const chunk of proposals) ending[chunk.to]?.push(chunk);
  // Of the chunks up to each token the heaviest set's weight, and its last chunk.
  const total = new Array<number>(length + 1).fill(-Infinity);
  const best = new Array<Chunk | null>(length + 1).fill(null);
  total[0] = 0;
  for (let to = 1; to <= length; to += 1)
    for (const chunk of ending[to] ?? []) {
      const weighs = (total[chunk.from] ?? -Infinity) + weight(chunk);
      if (weighs <= (total[to] ?? -Infinity)) continue;
      total[to] = weighs;
      best[to] = chunk;
    }
  const chosen: Chunk[] = [];
  for (let at = length; at > 0;) {
    const chunk = best[at];
    if (chunk == null) break;
    const or = (ending[chunk.to] ?? []).filter(
      (other) => other !== chunk && other.from === chunk.from && other.kind !== 'word',
    );
    chosen.push(or.length === 0 ? chunk : { ...chunk, or });
    at = chunk.from;
  }
  return chosen.reverse();
}
