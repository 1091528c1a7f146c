import type { Problem } from '../../../src/plan/solver/problem.js';
import { brokenRules } from '../../support/feasible.js';

/**
 * The least value of all feasible schedules that end by `horizon`, by trying every start of every activity; for
 * problems of a few activities. `value` must not fall when an activity is put off.
 */
export function leastValue(
  problem: Problem,
  horizon: number,
  value: (start: readonly number[]) => number,
): number {
  const start: number[] = [];
  let best = Infinity;
  const part = (count: number): Problem => ({
    ...problem,
    activities: problem.activities.slice(0, count),
    links: problem.links.filter(({ from, to }) => from < count && to < count),
  });
  const parts = problem.activities.map((_, a) => part(a + 1));
  const place = (a: number): void => {
    const activity = problem.activities[a];
    if (!activity) {
      best = Math.min(best, value(start));
      return;
    }
    for (let time = 0; time + activity.duration <= Math.min(horizon, best); time += 1) {
      start[a] = time;
      if (brokenRules(parts[a] as Problem, start.slice(0, a + 1)).length === 0) place(a + 1);
    }
    start.length = a;
  };
  place(0);
  return best;
}
