/**
 * With which letters the phrases of all indexes begin: a Bloom filter (Bloom, Communications of the ACM 13, 1970) of one
 * hash. It never denies a beginning, and takes about one in twenty of other letters for one.
 */
const BITS = 2 ** 21;
const bits = new Uint8Array(BITS / 8);

/** The hash of no letters; FNV-1a (draft-eastlake-fnv), which is taken on letter by letter. */
export const NO_LETTERS = 0x811c9dc5;
const PRIME = 0x01000193;

const withLetter = (hash: number, letters: string, at: number): number =>
  Math.imul(hash ^ letters.charCodeAt(at), PRIME);

/** The hash of some letters with more behind them. */
export function withLetters(hash: number, letters: string): number {
  let taken = hash;
  for (let at = 0; at < letters.length; at += 1) taken = withLetter(taken, letters, at);
  return taken;
}

const bitOf = (hash: number): number => (hash ^ (hash >>> 15)) & (BITS - 1);

/** Makes known what an index has, so that longer runs of words are looked up where one of its phrases may go on. */
export function noteBeginnings(keys: Iterable<string>): void {
  for (const key of keys) {
    let hash = NO_LETTERS;
    for (let at = 0; at < key.length; at += 1) {
      hash = withLetter(hash, key, at);
      const bit = bitOf(hash);
      bits[bit >> 3] = (bits[bit >> 3] ?? 0) | (1 << (bit & 7));
    }
  }
}

/** Whether letters of that hash may be the beginning of a phrase. */
export const mayBegin = (hash: number): boolean => {
  const bit = bitOf(hash);
  return ((bits[bit >> 3] ?? 0) & (1 << (bit & 7))) !== 0;
};
