/** A source of 32-bit unsigned random numbers, wholly given by its seed. */
export type Random = {
  /** An integer from 0 to 2³² − 1. */
  word(): number;
  /** A number from 0 (included) to 1 (not included). */
  unit(): number;
};

/**
 * xoshiro128** 1.1 (Blackman & Vigna 2018, public domain), its four words of state filled from one seed by
 * splitmix32. Written here because forecasts draw millions of numbers in a loop that must be inlined.
 */
export function randomFrom(seed: number): Random {
  const fill = splitmix(seed);
  return xoshiro([fill(), fill(), fill(), fill()]);
}

/** xoshiro128** from a given state, not all zero. */
export function xoshiro(state: readonly [number, number, number, number]): Random {
  let [a, b, c, d] = state;
  const word = (): number => {
    const five = Math.imul(b, 5);
    const result = Math.imul((five << 7) | (five >>> 25), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result;
  };
  return { word, unit: () => word() / 4_294_967_296 };
}

/** Spreads one seed over many bits, so that seeds 1 and 2 give unlike streams. */
function splitmix(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let mixed = state ^ (state >>> 16);
    mixed = Math.imul(mixed, 0x21f0aaad);
    mixed ^= mixed >>> 15;
    mixed = Math.imul(mixed, 0x735a2d97);
    return (mixed ^ (mixed >>> 15)) >>> 0;
  };
}
