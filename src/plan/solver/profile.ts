/**
 * What is free of all resources, period by period, packed into 32-bit words: each resource has a lane of bits
 * wide enough for its largest capacity and one guard bit above. `free - demand` keeps a lane's guard bit
 * exactly where the lane has enough, so one subtraction and one mask test all resources of a word (SIMD within
 * a register: Lamport, 'Multiple byte processing with full-word instructions', CACM 18 (1975) 471-475).
 */
export type Packing = {
  words: number;
  /** Guard bits by word. */
  guards: Int32Array;
  /** Which word, and how far left in it, by resource. */
  word: Int32Array;
  shift: Int32Array;
};

/** The largest capacity or demand that a lane holds. */
export const LARGEST_CAPACITY = 2 ** 30 - 1;

/** Gives each resource its lane, by its largest capacity; first fit, in order. */
export function pack(largest: Int32Array): Packing {
  const word = new Int32Array(largest.length);
  const shift = new Int32Array(largest.length);
  const used: number[] = [0];
  const guards: number[] = [0];
  largest.forEach((capacity, resource) => {
    const width = 33 - Math.clz32(capacity);
    if ((used.at(-1) as number) + width > 32) {
      used.push(0);
      guards.push(0);
    }
    const last = used.length - 1;
    word[resource] = last;
    shift[resource] = used[last] as number;
    used[last] = (used[last] as number) + width;
    guards[last] = (guards[last] as number) | (1 << (used[last] - 1));
  });
  return { words: used.length, guards: Int32Array.from(guards), word, shift };
}

/** Adds up amounts of each resource into the words of `target` that begin at `from`. */
export function packInto(
  packing: Packing,
  amounts: ArrayLike<number>,
  target: Int32Array,
  from: number,
): void {
  for (let resource = 0; resource < packing.word.length; resource += 1) {
    const index = from + (packing.word[resource] as number);
    const amount = (amounts[resource] ?? 0) << (packing.shift[resource] as number);
    target[index] = (target[index] as number) | amount;
  }
}
