import type { Network, Side } from './network.js';

/** In larger problems its search through all candidates in every period takes too long. */
export const PARALLEL_AT_MOST = 1000;

/** Chooses one of the first `count` entries of `candidates`; gives its place. */
export type Choose = (candidates: Int32Array, count: number) => number;

/**
 * Parallel schedule generation (Kelley 1963; Kolisch 1996, EJOR 90:320-333): goes forward in time and, period by
 * period, starts what can start, as `choose` likes. Gives a generator whose schedules are non-delay ones.
 */
export function parallelGeneration(
  network: Network,
): (side: Side, choose: Choose, start: Int32Array) => number {
  const { size, duration, need, packing, forward } = network;
  const { words, guards } = packing;
  const free = new Int32Array(network.backward.base.length);
  const waiting = new Int32Array(size);
  const ready = new Int32Array(size);
  const open = new Int32Array(size);
  const fitting = new Int32Array(size);
  const place = new Int32Array(size);

  const fits = (activity: number, time: number): boolean => {
    // Nothing is scheduled to begin later, so with steady capacities what fits now fits for good.
    const last = network.steady ? Math.min(1, duration[activity] as number) : (duration[activity] as number);
    for (let period = time; period < time + last; period += 1) {
      for (let word = 0; word < words; word += 1) {
        const mask = guards[word] as number;
        const left = (free[period * words + word] as number) - (need[activity * words + word] as number);
        if ((left & mask) !== mask) return false;
      }
    }
    return true;
  };

  const take = (activity: number, time: number): void => {
    for (let period = time; period < time + (duration[activity] as number); period += 1) {
      for (let word = 0; word < words; word += 1) {
        const index = period * words + word;
        free[index] = (free[index] as number) - (need[activity * words + word] as number);
      }
    }
  };

  return (side, choose, start) => {
    const after = side === forward ? network.backward : forward;
    free.set(side.base);
    let count = 0;
    for (const activity of side.order) {
      waiting[activity] = (side.beforeFrom[activity + 1] as number) - (side.beforeFrom[activity] as number);
      ready[activity] = side.release[activity] as number;
      if (waiting[activity] === 0) open[count++] = activity;
    }
    let makespan = 0;
    let time = 0;
    while (count > 0) {
      let possible = 0;
      let soonest = Infinity;
      for (let k = 0; k < count; k += 1) {
        const activity = open[k] as number;
        const from = Math.max(ready[activity] as number, time + 1);
        if ((ready[activity] as number) <= time && fits(activity, time)) {
          place[possible] = k;
          fitting[possible++] = activity;
        } else if (from < soonest) soonest = from;
      }
      if (possible === 0) {
        time = soonest;
        continue;
      }
      const chosen = possible === 1 ? 0 : choose(fitting, possible);
      const activity = fitting[chosen] as number;
      count -= 1;
      open[place[chosen] as number] = open[count] as number;
      start[activity] = time;
      take(activity, time);
      const end = time + (duration[activity] as number);
      if (end > makespan) makespan = end;
      const last = after.beforeFrom[activity + 1] as number;
      for (let k = after.beforeFrom[activity] as number; k < last; k += 1) {
        const next = after.before[k] as number;
        ready[next] = Math.max(ready[next] as number, end + (after.lag[k] as number));
        waiting[next] = (waiting[next] as number) - 1;
        if (waiting[next] === 0) open[count++] = next;
      }
    }
    return makespan;
  };
}
