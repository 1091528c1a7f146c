import { expect, it } from 'vitest';
import { randomFrom, xoshiro } from '../../src/plan/random.js';

it('gives xoshiro128** as its reference code does', () => {
  // First outputs from the state 1, 2, 3, 4: the authors’ C code (prng.di.unimi.it), as many public tests repeat it.
  const random = xoshiro([1, 2, 3, 4]);
  const words = Array.from({ length: 10 }, () => random.word());
  expect(words).toEqual([
    11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
  ]);
});

it('is evenly spread, and the same for the same seed alone', () => {
  const counts = new Array<number>(16).fill(0);
  const random = randomFrom(7);
  const drawn = Array.from({ length: 160_000 }, () => random.unit());
  for (const value of drawn) counts[Math.floor(value * 16)] = (counts[Math.floor(value * 16)] ?? 0) + 1;
  const chiSquared = counts.reduce((sum, count) => sum + (count - 10_000) ** 2 / 10_000, 0);
  // 15 degrees of freedom: 37.7 is passed once in a thousand (chi-squared table).
  expect(chiSquared).toBeLessThan(37.7);
  const again = randomFrom(7);
  expect(drawn.slice(0, 50)).toEqual(Array.from({ length: 50 }, () => again.unit()));
  expect(randomFrom(8).word()).not.toBe(randomFrom(7).word());
});
