import { benchLine, type BenchLine } from './bench-plan/bench-line.js';
import { handOut } from './bench-plan/hand-out.js';
import type { BenchPlan, BenchShop, BenchTask, PlannedStart, PlannedTask } from './bench-plan/types.js';
import type { Problem, Resource } from './solver/problem.js';
import { solve } from './solver/solve.js';

export type {
  BenchPlan,
  BenchShop,
  BenchTask,
  Mechanic,
  PlannedStart,
  PlannedTask,
} from './bench-plan/types.js';

/** Half an hour is as fine as bench work is planned. */
const PERIODS_AN_HOUR = 2;
/** A busy shop gets many schedules tried, a hundred jobs a few: the answer may not take longer for it. */
const PLACEMENTS = 40_000;
const SCHEDULES = { atLeast: 4, atMost: 400 };
/** Days off further ahead than a year's working days are left for the hand-out to mind. */
const DAYS_OFF_FORESEEN = 260;
/** A period late costs 20 of the plan's length; one that a task is moved by, half of one. */
const COSTS = { makespan: 1, tardiness: 20, deviation: 0.5 };

/**
 * A feasible plan of all bench work by the pairs of hands that there are, most weight on days wanted by, then on being
 * done early, then on staying near the plan before. Working days are laid end to end in half hours, so closed days
 * take no room. The search is the solver's. What keeps the plan stable is the third weight: minimal perturbation, as
 * in El Sakkout and Wallace, "Probe backtrack search for minimal perturbation in dynamic scheduling", Constraints 5
 * (2000); from memory.
 */
export function benchPlan(tasks: readonly BenchTask[], shop: BenchShop): BenchPlan {
  const { mechanics, stations } = shop;
  if (mechanics.length === 0) return { ok: false, why: 'no-mechanics' };
  if (tasks.length === 0) return { ok: true, tasks: [] };
  const line = benchLine(
    shop.today,
    shop.calendar,
    mechanics.map(({ calendar }) => calendar),
    Math.max(1, Math.round(shop.hoursADay * PERIODS_AN_HOUR)),
  );
  const solved = solve(problemOf(tasks, shop, line), {
    schedules: schedulesFor(tasks.length),
    seed: 1,
    objective: COSTS,
    baseline: tasks.map(({ id }) => startBefore(shop, line, id)),
  });
  if (!solved.ok) return { ok: false, why: 'no-plan' };
  return {
    ok: true,
    tasks: handOut({
      ...{ tasks, starts: solved.start, lengthOf: periodsOf, line, stations },
      mechanics: mechanics.map(({ id }) => id),
      handsBefore: (task) => shop.before.get(task)?.mechanic,
    }),
  };
}

/** How many schedules are tried, by the number of tasks: what bounds the time it takes. */
export function schedulesFor(tasks: number): number {
  return Math.max(SCHEDULES.atLeast, Math.min(SCHEDULES.atMost, Math.floor(PLACEMENTS / Math.max(1, tasks))));
}

/** Where each task of a plan begins: the first of its days. */
export function startsOf(tasks: readonly PlannedTask[]): Map<string, PlannedStart> {
  const starts = new Map<string, PlannedStart>();
  for (const { id, day, halfHour, mechanic } of tasks)
    if (!starts.has(id)) starts.set(id, { day, halfHour, mechanic });
  return starts;
}

const periodsOf = ({ hours }: BenchTask): number => Math.max(1, Math.round(hours * PERIODS_AN_HOUR));

function problemOf(tasks: readonly BenchTask[], shop: BenchShop, line: BenchLine): Problem {
  const waitedFor = new Set(tasks.flatMap(({ after }) => after.map(({ id }) => id)));
  const stations = Object.keys(shop.stations);
  const index = new Map(tasks.map(({ id }, place) => [id, place]));
  const day = line.halfHoursADay;
  return {
    activities: tasks.map((task) => ({
      duration: periodsOf(task),
      demands: [1, ...stations.map((station) => (task.stations.includes(station) ? 1 : 0))],
      release: task.notBefore === null ? 0 : line.halfHourOf(task.notBefore),
      // A job's day is that of its last work, not of each piece of it.
      ...(task.wantedBy === null || waitedFor.has(task.id)
        ? {}
        : { due: line.halfHourOf(task.wantedBy) + day, weight: task.weight }),
    })),
    links: tasks.flatMap((task, to) =>
      task.after.flatMap(({ id, lagDays }) => {
        const from = index.get(id);
        return from === undefined ? [] : [{ from, to, lag: lagDays * day }];
      }),
    ),
    resources: [
      handsOf(shop, line),
      ...stations.map((station) => ({ capacity: Math.max(1, shop.stations[station] ?? 1) })),
    ],
  };
}

/** The pairs of hands in each half hour; one number where nobody has days off that others work. */
function handsOf({ mechanics }: BenchShop, line: BenchLine): Resource {
  const all = mechanics.length;
  const days = Array.from({ length: DAYS_OFF_FORESEEN }, (_, day) => line.handsOn(day));
  if (days.every((hands) => hands === all)) return { capacity: all };
  return {
    capacity: [...days.flatMap((hands) => Array.from({ length: line.halfHoursADay }, () => hands)), all],
  };
}

/** What was to be begun before today and is still to be done is carried on now. */
function startBefore(shop: BenchShop, line: BenchLine, id: string): number | null {
  const before = shop.before.get(id);
  if (before === undefined) return null;
  return before.day < shop.today ? 0 : line.halfHourOf(before.day) + before.halfHour;
}
