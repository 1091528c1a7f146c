import type { Random } from '../random.js';
import { hashOf } from './hash.js';

/** A schedule and what it is worth: the less, the better. */
export type Individual = { start: Int32Array; value: number };

/** Schedules of one direction of time, no two alike. */
export type Population = {
  size(): number;
  at(index: number): Individual;
  /** Takes it in unless it is there already; says whether it did. */
  add(newcomer: Individual): boolean;
  /** Puts it in the place of one that is no better, unless it is there already. */
  replace(index: number, newcomer: Individual): void;
  /** Keeps the `count` best. */
  trim(count: number): void;
  /** The better of `rounds` drawn at random, none of them `other` where there is another. */
  tournament(random: Random, rounds: number, other: number): number;
};

export function emptyPopulation(): Population {
  let members: (Individual & { hash: number })[] = [];
  const hashes = new Set<number>();
  const at = (index: number) => members[index] as Individual & { hash: number };
  return {
    size: () => members.length,
    at,
    add: (newcomer) => {
      const hash = hashOf(newcomer.start, 1);
      if (hashes.has(hash)) return false;
      hashes.add(hash);
      members.push({ ...newcomer, hash });
      return true;
    },
    replace: (index, newcomer) => {
      const hash = hashOf(newcomer.start, 1);
      const old = at(index);
      if (newcomer.value > old.value || hashes.has(hash)) return;
      hashes.delete(old.hash);
      hashes.add(hash);
      members[index] = { ...newcomer, hash };
    },
    trim: (count) => {
      members.sort((a, b) => a.value - b.value);
      for (const { hash } of members.slice(count)) hashes.delete(hash);
      members = members.slice(0, count);
    },
    tournament: (random, rounds, other) => {
      let best = -1;
      for (let round = 0; round < rounds; round += 1) {
        const drawn = drawOther(random, members.length, other);
        if (best < 0 || at(drawn).value < at(best).value) best = drawn;
      }
      return best;
    },
  };
}

function drawOther(random: Random, size: number, other: number): number {
  if (size === 1 || other < 0) return Math.floor(random.unit() * size);
  const drawn = Math.floor(random.unit() * (size - 1));
  return drawn >= other ? drawn + 1 : drawn;
}
