import type { Network, Side } from './network.js';

/** Earliest starts by links and release times alone, in one direction of time. */
export function earliestStarts(network: Network, side: Side): Int32Array {
  const { duration } = network;
  const earliest = side.release.slice();
  for (const activity of side.order) {
    for (let k = side.beforeFrom[activity] as number; k < (side.beforeFrom[activity + 1] as number); k += 1) {
      const earlier = side.before[k] as number;
      const end = (earliest[earlier] as number) + (duration[earlier] as number) + (side.lag[k] as number);
      if (end > (earliest[activity] as number)) earliest[activity] = end;
    }
  }
  return earliest;
}

/** Length of the longest chain of links, release times counted (the critical path; MPM time). */
export function criticalPath(network: Network): number {
  const starts = earliestStarts(network, network.forward);
  return starts.reduce((most, start, index) => Math.max(most, start + (network.duration[index] as number)), 0);
}

/** By activity, what a priority rule says: the lower, the sooner. */
export type Priority = Float64Array;

/**
 * Priority rules (Kolisch 1996, EJOR 90:320-333; Alvarez-Valdés & Tamarit 1989): latest finish time, latest start time, most
 * total successors, greatest rank positional weight of all successors.
 */
export function priorityRules(network: Network, side: Side): Priority[] {
  const { size, duration } = network;
  const other = side === network.forward ? network.backward : network.forward;
  const tail = earliestStarts(network, other);
  const reach = successors(network, side);
  const finish = Float64Array.from(tail, (wait) => -wait);
  const start = Float64Array.from(tail, (wait, index) => -wait - (duration[index] as number));
  const many = new Float64Array(size);
  const weight = new Float64Array(size);
  for (let activity = 0; activity < size; activity += 1) {
    weight[activity] = -(duration[activity] as number);
    for (const next of reach[activity] as number[]) {
      many[activity] = (many[activity] as number) - 1;
      weight[activity] = (weight[activity] as number) - (duration[next] as number);
    }
  }
  return [finish, start, many, weight];
}

function successors(network: Network, side: Side): number[][] {
  const reach = Array.from({ length: network.size }, () => new Set<number>());
  const order = side.order;
  for (let index = order.length - 1; index >= 0; index -= 1) {
    const activity = order[index] as number;
    const all = reach[activity] as Set<number>;
    for (let k = side.beforeFrom[activity] as number; k < (side.beforeFrom[activity + 1] as number); k += 1) {
      const earlier = side.before[k] as number;
      const set = reach[earlier] as Set<number>;
      set.add(activity);
      for (const next of all) set.add(next);
    }
  }
  return reach.map((set) => [...set]);
}
