import type { Random } from '../random.js';
import type { Network } from './network.js';

/** How much of the schedule's length the mother's window covers, at least and at most. */
const WINDOW = { least: 0.25, most: 0.75 };
/** Chance that an activity is moved in the child's order, and by how many periods at most. */
const MUTATION = { chance: 0.02, periods: 5 };

/**
 * The time-window crossover on start times of Debels & Vanhoucke (2005, 'A bi-population based genetic algorithm
 * for the RCPSP', LNCS 3483:378-387): outside a window of time the child's order is the father's, inside it the
 * mother's. `father` and `mother` are keys (times) by activity; the child's keys are written into `child`.
 */
export function crossWindows(
  random: Random,
  father: Int32Array,
  mother: Int32Array,
  makespan: number,
  child: Int32Array,
): void {
  const share = WINDOW.least + random.unit() * (WINDOW.most - WINDOW.least);
  const length = Math.max(1, Math.floor(makespan * share));
  const from = Math.floor(random.unit() * (makespan - length + 1));
  const to = from + length;
  // The window's activities go by the mother's times: those before and after it are moved clear of them all.
  let beyond = 1;
  for (let a = 0; a < father.length; a += 1) {
    beyond = Math.max(beyond, (father[a] as number) + 1, (mother[a] as number) + 1);
  }
  for (let a = 0; a < father.length; a += 1) {
    const time = father[a] as number;
    child[a] = time < from ? time - beyond : time >= to ? time + beyond : (mother[a] as number);
  }
}

/** Each activity's key from one parent or the other (uniform crossover: Syswerda 1989). */
export function crossUniformly(
  random: Random,
  father: Int32Array,
  mother: Int32Array,
  child: Int32Array,
): void {
  for (let a = 0; a < father.length; a += 1) {
    child[a] = (random.unit() < 0.5 ? father[a] : mother[a]) as number;
  }
}

/** Moves a few activities some periods to and fro; `strength` multiplies how many. */
export function mutate(random: Random, network: Network, key: Int32Array, strength: number): void {
  const chance = MUTATION.chance * strength;
  for (let a = 0; a < network.size; a += 1) {
    if (random.unit() >= chance) continue;
    const shift = Math.floor(random.unit() * (2 * MUTATION.periods + 1)) - MUTATION.periods;
    key[a] = (key[a] as number) + shift;
  }
}
