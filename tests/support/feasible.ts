import type { Problem } from '../../src/plan/solver/problem.js';

/**
 * Every rule that a schedule breaks, in words; none where it is feasible. Shares nothing with the solver but the
 * problem's type: it recounts each resource in each period from the problem as stated.
 */
export function brokenRules(problem: Problem, start: readonly number[]): string[] {
  const broken: string[] = [];
  if (start.length !== problem.activities.length) return [`${start.length} starts are given`];
  const endOf = (a: number): number => (start[a] ?? NaN) + (problem.activities[a]?.duration ?? NaN);
  problem.activities.forEach(({ release = 0 }, a) => {
    const begun = start[a] ?? NaN;
    if (!Number.isInteger(begun)) broken.push(`activity ${a} starts at ${begun}`);
    if (!(begun >= Math.max(0, release))) broken.push(`activity ${a} starts before its release`);
  });
  for (const { from, to, lag = 0 } of problem.links) {
    if (!((start[to] ?? NaN) >= endOf(from) + lag)) broken.push(`${to} starts too soon after ${from}`);
  }
  problem.resources.forEach(({ capacity }, resource) => {
    const used = new Map<number, number>();
    problem.activities.forEach(({ demands }, a) => {
      for (let time = start[a] ?? NaN; time < endOf(a); time += 1) {
        used.set(time, (used.get(time) ?? 0) + (demands[resource] ?? 0));
      }
    });
    for (const [time, units] of used) {
      const there = typeof capacity === 'number' ? capacity : (capacity[time] ?? capacity.at(-1) ?? 0);
      if (units > there) broken.push(`resource ${resource} lacks ${units - there} in period ${time}`);
    }
  });
  return broken;
}

/** When the last activity ends. */
export function lengthOf(problem: Problem, start: readonly number[]): number {
  return Math.max(0, ...problem.activities.map(({ duration }, a) => (start[a] ?? NaN) + duration));
}
