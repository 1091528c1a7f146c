import type { Network } from './network.js';
import type { Problem } from './problem.js';
import { criticalPath } from './rules.js';

/** No schedule is shorter: the critical path, or the work of some resource spread over what there is of it. */
export function makespanBound(problem: Problem, network: Network): number {
  return problem.resources.reduce((most, { capacity }, resource) => {
    const work = problem.activities.reduce(
      (sum, { duration, demands }) => sum + duration * (demands[resource] ?? 0),
      0,
    );
    return Math.max(most, timeFor(work, typeof capacity === 'number' ? [capacity] : capacity));
  }, criticalPath(network));
}

/** Periods until capacity adds up to the work; the last capacity holds for ever. */
function timeFor(work: number, capacity: readonly number[]): number {
  let left = work;
  for (const [period, units] of capacity.slice(0, -1).entries()) {
    if (left <= 0) return period;
    left -= units;
  }
  const last = capacity.at(-1) as number;
  return left <= 0 ? capacity.length - 1 : capacity.length - 1 + Math.ceil(left / last);
}
