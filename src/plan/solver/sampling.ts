import type { Random } from '../random.js';
import type { Network, Side } from './network.js';
import type { Choose } from './parallel.js';
import type { Priority } from './rules.js';

/**
 * Regret-based biased random sampling (Drexl 1991, Management Science 37:1590-1602; Kolisch 1996): a candidate's chance grows with the
 * square of how much worse the worst candidate is, plus 1.
 */
export function biasedChoice(random: Random, priority: Priority, size: number): Choose {
  const sums = new Float64Array(size);
  return (candidates, count) => {
    let worst = -Infinity;
    for (let k = 0; k < count; k += 1) {
      const value = priority[candidates[k] as number] as number;
      if (value > worst) worst = value;
    }
    let sum = 0;
    for (let k = 0; k < count; k += 1) {
      const regret = worst - (priority[candidates[k] as number] as number) + 1;
      sum += regret * regret;
      sums[k] = sum;
    }
    const drawn = random.unit() * sum;
    let chosen = 0;
    while (chosen < count - 1 && drawn >= (sums[chosen] as number)) chosen += 1;
    return chosen;
  };
}

/** Any candidate, each with the same chance. */
export function anyChoice(random: Random): Choose {
  return (_, count) => Math.floor(random.unit() * count);
}

/** Always the candidate of the lowest priority value; the first of equals. */
export function bestChoice(priority: Priority): Choose {
  return (candidates, count) => {
    let best = 0;
    for (let k = 1; k < count; k += 1) {
      const value = priority[candidates[k] as number] as number;
      if (value < (priority[candidates[best] as number] as number)) best = k;
    }
    return best;
  };
}

/** Fills `list` step by step: of the activities whose predecessors are all listed, `choose` takes the next. */
export function drawList(network: Network): (side: Side, choose: Choose, list: Int32Array) => void {
  const { size, forward, backward } = network;
  const waiting = new Int32Array(size);
  const open = new Int32Array(size);
  return (side, choose, list) => {
    const after = side === forward ? backward : forward;
    let count = 0;
    for (let a = 0; a < size; a += 1) {
      waiting[a] = (side.beforeFrom[a + 1] as number) - (side.beforeFrom[a] as number);
      if (waiting[a] === 0) open[count++] = a;
    }
    for (let place = 0; place < size; place += 1) {
      const chosen = choose(open, count);
      const activity = open[chosen] as number;
      count -= 1;
      open[chosen] = open[count] as number;
      list[place] = activity;
      const last = after.beforeFrom[activity + 1] as number;
      for (let k = after.beforeFrom[activity] as number; k < last; k += 1) {
        const next = after.before[k] as number;
        waiting[next] = (waiting[next] as number) - 1;
        if (waiting[next] === 0) open[count++] = next;
      }
    }
  };
}
