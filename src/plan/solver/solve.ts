import { randomFrom } from '../random.js';
import { makespanBound } from './bound.js';
import { searchMakespan } from './makespan-search.js';
import { compileProblem } from './network.js';
import { objectiveOf } from './objective.js';
import { searchObjective } from './objective-search.js';
import type { Baseline, Objective, Problem, ProblemFault } from './problem.js';
import { tallyOf } from './tally.js';

export type SolveOptions = {
  /** The budget: so many generation passes at most, each pass over the activities counted as one. At least one is made. */
  schedules: number;
  seed: number;
  /** Default: the makespan alone. */
  objective?: Objective;
  /** Starts to stay near; counts where the objective gives `deviation` a weight. */
  baseline?: Baseline;
  /** Asked after each schedule; true ends the search with the best so far (a deadline, say). Default: never. */
  stop?: () => boolean;
};

export type Solution = {
  /** Start by activity, in periods. */
  start: number[];
  makespan: number;
  /** What was minimised. */
  objective: number;
  /** Generation passes made. */
  schedules: number;
};

export type SolveResult = ({ ok: true } & Solution) | { ok: false; fault: ProblemFault };

/**
 * A feasible schedule, as good as the budget allows; the same problem, options and seed give the same one (as far
 * as `stop` is not asked for the time). Ends early where a bound shows that nothing is shorter.
 */
export function solve(problem: Problem, options: SolveOptions): SolveResult {
  const { objective, baseline = [], stop = () => false, schedules, seed } = options;
  const compiled = compileProblem(problem, baseline);
  if (!compiled.ok) return compiled;
  const { network } = compiled;
  if (network.size === 0) return { ok: true, start: [], makespan: 0, objective: 0, schedules: 0 };
  const random = randomFrom(seed);
  const value = objectiveOf(problem, objective ?? {}, baseline);
  const tally = tallyOf(network.size, {
    schedules,
    stop,
    bound: value.makespanAlone ? makespanBound(problem, network) : 0,
  });
  if (value.makespanAlone) searchMakespan(network, random, tally, schedules);
  else searchObjective({ problem, network, value, baseline }, random, tally);
  const start = [...tally.best().start];
  const makespan = start.reduce((end, time, a) => Math.max(end, time + (network.duration[a] as number)), 0);
  return { ok: true, start, makespan, objective: value.of(start), schedules: tally.schedules() };
}
