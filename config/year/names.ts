import type { Random } from '../../src/plan/random.js';

/** Draws from lists, all given by one seed. */
export type Dice = {
  /** A whole number from `least` to `most`, both included. */
  whole: (least: number, most: number) => number;
  pick: <T>(list: readonly T[]) => T;
  /** True with the chance `p`. */
  chance: (p: number) => boolean;
};

export function diceOf(random: Random): Dice {
  const whole = (least: number, most: number): number =>
    least + Math.floor(random.unit() * (most - least + 1));
  return {
    whole,
    pick: <T>(list: readonly T[]): T => {
      const found = list[whole(0, list.length - 1)];
      if (found === undefined) throw new Error('nothing to pick from');
      return found;
    },
    chance: (p) => random.unit() < p,
  };
}

const STARTS = [
  'Bra',
  'Kel',
  'Tor',
  'Wex',
  'Hul',
  'Nor',
  'Pen',
  'Gar',
  'Dun',
  'Ash',
  'Cor',
  'Fen',
  'Lud',
  'Mer',
  'Sta',
];
const ENDS = [
  'mbridge',
  'thorpe',
  'combe',
  'wick',
  'lock',
  'stow',
  'ridge',
  'mere',
  'ford',
  'gate',
  'nell',
  'dale',
];

/** Invented names, none twice and none part of another: machines, owners and firms are told apart by them. */
export function makeNames(dice: Dice): () => string {
  const all = STARTS.flatMap((start) => ENDS.map((end) => start + end));
  return () => {
    const at = dice.whole(0, all.length - 1);
    const [name] = all.splice(at, 1);
    if (name === undefined) throw new Error('out of names: ask for fewer jobs and suppliers');
    return name;
  };
}
