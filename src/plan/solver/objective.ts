import type { Baseline, Objective, Problem } from './problem.js';

/** What a schedule is worth: the less, the better. */
export type Value = {
  of(start: ArrayLike<number>): number;
  /** Nothing but the makespan counts. */ makespanAlone: boolean;
};

/** Adds up makespan, weighted tardiness and deviation from the baseline, each times its weight. */
export function objectiveOf(problem: Problem, objective: Objective, baseline: Baseline): Value {
  const { makespan = 1, tardiness = 0, deviation = 0 } = objective;
  const { activities } = problem;
  const length = Float64Array.from(activities, ({ duration }) => duration);
  const due = Float64Array.from(activities, (activity) => activity.due ?? Infinity);
  const late = Float64Array.from(activities, (activity) => tardiness * (activity.weight ?? 1));
  const planned = Float64Array.from(activities, (_, a) => baseline[a] ?? NaN);
  const anyDue = tardiness !== 0 && due.some((time) => time < Infinity);
  const anyPlanned = deviation !== 0 && planned.some((time) => !Number.isNaN(time));
  const of = (start: ArrayLike<number>): number => {
    let end = 0;
    let cost = 0;
    for (let a = 0; a < length.length; a += 1) {
      const begun = start[a] as number;
      const finish = begun + (length[a] as number);
      if (finish > end) end = finish;
      if (finish > (due[a] as number)) cost += (finish - (due[a] as number)) * (late[a] as number);
      const moved = Math.abs(begun - (planned[a] as number));
      if (moved > 0) cost += moved * deviation;
    }
    return makespan * end + cost;
  };
  return { of, makespanAlone: !anyDue && !anyPlanned && makespan === 1 };
}
