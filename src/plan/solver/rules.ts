import type { Network, Side } from './network.js';
import type { Problem } from './problem.js';

/** Earliest starts by links and release times alone, in one direction of time. */
export function earliestStarts(network: Network, side: Side): Int32Array {
  const { duration } = network;
  const { before, beforeFrom, lag } = side;
  const earliest = side.release.slice();
  for (const activity of side.order) {
    for (let k = beforeFrom[activity] as number; k < (beforeFrom[activity + 1] as number); k += 1) {
      const earlier = before[k] as number;
      const end = (earliest[earlier] as number) + (duration[earlier] as number) + (lag[k] as number);
      if (end > (earliest[activity] as number)) earliest[activity] = end;
    }
  }
  return earliest;
}

/** Length of the longest chain of links, release times counted (the critical path; 'MPM time'). */
export function criticalPath(network: Network): number {
  const starts = earliestStarts(network, network.forward);
  return starts.reduce(
    (most, start, index) => Math.max(most, start + (network.duration[index] as number)),
    0,
  );
}

/** By activity, what a priority rule says: the lower, the sooner. */
export type Priority = Float64Array;

/** The priority rules latest finish time and latest start time (Kolisch 1996, EJOR 90:320-333), from the end. */
export function priorityRules(network: Network, side: Side): [Priority, Priority] {
  const tail = earliestStarts(network, side === network.forward ? network.backward : network.forward);
  const finish = Float64Array.from(tail, (wait) => -wait);
  return [finish, finish.map((time, activity) => time - (network.duration[activity] as number))];
}

/**
 * Latest finish times by due dates: what keeps an activity and all after it in time. Where nothing after it is
 * due, it counts back from the last due date.
 */
export function dueRule(network: Network, problem: Problem): Priority {
  const { backward, duration } = network;
  const latest = problem.activities.reduce(
    (last, { due }) => Math.max(last, due ?? 0),
    criticalPath(network),
  );
  const finish = new Float64Array(network.size).fill(latest);
  for (const activity of backward.order) {
    const { due } = problem.activities[activity] as Problem['activities'][number];
    let time = Math.min(finish[activity] as number, due ?? latest);
    for (
      let k = backward.beforeFrom[activity] as number;
      k < (backward.beforeFrom[activity + 1] as number);
      k += 1
    ) {
      const after = backward.before[k] as number;
      const wait = (duration[after] as number) + (backward.lag[k] as number);
      time = Math.min(time, (finish[after] as number) - wait);
    }
    finish[activity] = time;
  }
  return finish;
}
