import type { Gate } from '../trade/terms.js';
import type { IsoDate } from './days.js';
import { at } from './graph.js';
import type { ModelFault, PlanModel } from './model.js';
import { compileModel, type CompiledModel } from './forecast/compile.js';
import { TICKS } from './forecast/day-table.js';
import { delayCost } from './forecast/delay-cost.js';
import { driverOf, fewRuns, type Rows } from './forecast/propagate.js';
import { goalsOf, reachedAt, type Goal } from './forecast/goals.js';
import { middleRun, simulate, type GoalRuns } from './forecast/simulate.js';

/** A date with its chances: reached by `early` one time in five, by `even` one in two, by `safe` four in five. */
export type DateSpread = { early: IsoDate; even: IsoDate; safe: IsoDate };

export type GoalForecast = DateSpread & {
  /** The activities that drive it, first to last, if all goes as it most likely does. */
  chain: string[];
  /** How often the bench hours hold it up rather than any chain, 0 to 1. */
  byHands: number;
  /** The safe date lies past the forecast's horizon of some four years, and is no date to name. */
  beyondHorizon: boolean;
};

export type ActivityForecast = {
  /** When it began, or will begin if all goes as it most likely does. */
  begins: IsoDate;
  ends: DateSpread;
  /** How often it is on the critical path to the hand-over, 0 to 1. */
  critical: number;
  /** Mean days by which the hand-over moves if this ends a working day later; null for bench work and what is done. */
  delayCost: number | null;
};

export type Forecast = {
  ok: true;
  runs: number;
  handOver: GoalForecast;
  /** Of the gates that have activities; what is passed has its chain empty. */
  gates: ReadonlyMap<Gate, GoalForecast>;
  activities: ReadonlyMap<string, ActivityForecast>;
};

export type ForecastResult = Forecast | { ok: false; fault: ModelFault };

/** `runs` default 10,000; it is rounded up to whole blocks of 250. */
export type ForecastOptions = { seed: number; runs?: number };

/**
 * When each gate and the hand-over will be reached, by simulation (Van Slyke 1963, Monte Carlo methods and the PERT
 * problem; from memory): each run draws every length from its spread, lays the work out over the working
 * calendars, and takes the latest. Lengths are drawn independently of each other. The job's bench hours, at the
 * pace that the shop gives it, hold each goal as well; which pair of hands does what when is the bench plan's business.
 */
export function forecast(model: PlanModel, options: ForecastOptions): ForecastResult {
  const compiled = compileModel(model);
  if (!compiled.ok) return compiled;
  const goals = goalsOf(compiled.model);
  const simulated = simulate(compiled.model, goals, options.runs ?? 10_000, options.seed);
  const middle = middleRun(compiled.model);
  const few = fewRuns(compiled.model, simulated.sample);
  const reached = simulated.goals.map((goal) => goalForecast(compiled.model, goal, simulated.runs, middle));
  const handOver = reached.at(-1);
  const lastGoal = goals.at(-1);
  if (!handOver || !lastGoal) throw new Error('a model without its hand-over');
  const activities = new Map<string, ActivityForecast>();
  model.activities.forEach((activity, node) => {
    const critical = at(simulated.critical, node);
    const waited = activity.kind !== 'bench' && activity.finished === null;
    activities.set(activity.id, {
      ...activityDates(compiled.model, few, middle, node),
      critical,
      delayCost: waited ? costIfCritical(compiled.model, few, lastGoal, node, critical) : null,
    });
  });
  const gates = goals.flatMap(({ gate }, k): [Gate, GoalForecast][] => {
    const found = reached[k];
    return gate !== null && found ? [[gate, found]] : [];
  });
  return { ok: true, runs: simulated.runs, handOver, gates: new Map(gates), activities };
}

function goalForecast(model: CompiledModel, reached: GoalRuns, runs: number, middle: Rows): GoalForecast {
  const day = (p: number): number => {
    let count = 0;
    return reached.onDay.findIndex((many) => (count += many) >= p * runs);
  };
  const dateOf = (p: number): IsoDate => model.dates[day(p)] ?? '';
  return {
    early: dateOf(0.2),
    even: dateOf(0.5),
    safe: dateOf(0.8),
    chain: chainTo(model, reached.goal, middle),
    byHands: reached.byHands / runs,
    beyondHorizon: day(0.8) >= model.dates.length - 31,
  };
}

function chainTo(model: CompiledModel, goal: Goal, middle: Rows): string[] {
  let node = reachedAt(model, middle, goal).last[0] ?? -1;
  if (model.lengths[node] === null) return [];
  const chain: string[] = [];
  while (node >= 0) {
    chain.push(model.activities[node]?.id ?? '');
    node = driverOf(model, middle, node, 0);
  }
  return chain.reverse();
}

/** What is hardly ever critical costs next to nothing, and isn't worth the reckoning. */
function costIfCritical(
  model: CompiledModel,
  rows: Rows,
  goal: Goal,
  node: number,
  critical: number,
): number {
  return critical < 0.02 ? 0 : delayCost(model, rows, goal, node);
}

function activityDates(model: CompiledModel, rows: Rows, middle: Rows, node: number) {
  const { started = null, finished = null } = model.activities[node] ?? {};
  const dateOf = (tick: number): IsoDate =>
    model.dates[Math.min(model.dates.length - 1, Math.floor(tick / TICKS))] ?? '';
  const begins = started ?? finished ?? dateOf(at(middle.begins, node));
  if (finished !== null) return { begins, ends: { early: finished, even: finished, safe: finished } };
  const sorted = rows.finishes.slice(node * rows.runs, (node + 1) * rows.runs).sort();
  const less = model.activities[node]?.kind === 'bench' ? 1 : 0;
  const ended = (p: number): IsoDate => dateOf((sorted[Math.ceil(p * rows.runs) - 1] ?? 0) - less);
  return { begins, ends: { early: ended(0.2), even: ended(0.5), safe: ended(0.8) } };
}
