import type { Network, Side } from './network.js';

/** A pass over all activities in one direction; gives the makespan and writes starts into `start`. */
export type Generate = (side: Side, list: Int32Array, start: Int32Array) => number;

/**
 * Serial schedule generation (Kelley 1963; Kolisch 1996, EJOR 90:320-333): takes the activities in the order of
 * a precedence-feasible list and starts each as early as links, release time and resources allow.
 */
export function serialGeneration(network: Network): Generate {
  const { duration, need, packing } = network;
  const { words, guards } = packing;
  const guard = guards[0] as number;
  const free = new Int32Array(network.backward.base.length);
  let used = network.horizon;

  const clear = (side: Side): void => {
    free.set(network.steady ? side.base.subarray(0, used * words) : side.base);
  };

  const earliest = (side: Side, activity: number, start: Int32Array): number => {
    const { before, beforeFrom, lag } = side;
    let time = side.release[activity] as number;
    const last = beforeFrom[activity + 1] as number;
    for (let k = beforeFrom[activity] as number; k < last; k += 1) {
      const earlier = before[k] as number;
      const end = (start[earlier] as number) + (duration[earlier] as number) + (lag[k] as number);
      if (end > time) time = end;
    }
    return time;
  };

  const placeOne = (activity: number, from: number, length: number): number => {
    const take = need[activity] as number;
    let time = from;
    let checked = from;
    let period = time + length - 1;
    // Back from the end: a period that lacks something moves the start beyond it at once, and what was seen
    // between the two is good.
    while (period >= checked) {
      if ((((free[period] as number) - take) & guard) === guard) period -= 1;
      else {
        checked = time + length;
        time = period + 1;
        period = time + length - 1;
      }
    }
    for (let each = time; each < time + length; each += 1) free[each] = (free[each] as number) - take;
    return time;
  };

  const hasRoom = (activity: number, period: number): boolean => {
    for (let word = 0; word < words; word += 1) {
      const mask = guards[word] as number;
      const left = (free[period * words + word] as number) - (need[activity * words + word] as number);
      if ((left & mask) !== mask) return false;
    }
    return true;
  };

  const placeMany = (activity: number, from: number, length: number): number => {
    let time = from;
    for (let period = time + length - 1; period >= time;) {
      if (hasRoom(activity, period)) period -= 1;
      else {
        time = period + 1;
        period = time + length - 1;
      }
    }
    for (let each = time; each < time + length; each += 1) {
      for (let word = 0; word < words; word += 1) {
        const index = each * words + word;
        free[index] = (free[index] as number) - (need[activity * words + word] as number);
      }
    }
    return time;
  };
  const place = words === 1 ? placeOne : placeMany;

  return (side, list, start) => {
    clear(side);
    let makespan = 0;
    for (let index = 0; index < list.length; index += 1) {
      const activity = list[index] as number;
      const length = duration[activity] as number;
      const from = earliest(side, activity, start);
      const time = length === 0 ? from : place(activity, from, length);
      start[activity] = time;
      if (time + length > makespan) makespan = time + length;
    }
    used = makespan;
    return makespan;
  };
}
