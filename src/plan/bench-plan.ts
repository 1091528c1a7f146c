import { addWorkingDays, workingDaysBetween, type IsoDate, type WorkingCalendar } from './calendar.js';
import { solve } from './solver/solve.js';
import type { Problem } from './solver/problem.js';

/** One piece of bench work still to do. */
export type BenchTask = {
  id: string;
  job: string;
  hours: number;
  /** What must be done before it; `lagDays` working days pass in between. */
  after: readonly { id: string; lagDays: number }[];
  /** What it waits for from outside is expected by then; null: nothing. */
  notBefore: IsoDate | null;
  /** The day its job is wanted by, or was promised for. */
  wantedBy: IsoDate | null;
  /** How much a day late weighs against others; 1 as a rule. */
  weight: number;
};

export type BenchShop = {
  today: IsoDate;
  calendar: WorkingCalendar;
  /** By id, in the order in which work is handed out. */
  mechanics: readonly string[];
  /** Hours at the bench in a working day of one mechanic. */
  hoursADay: number;
  /** The day each task stood on in the plan before, so that a small change moves little. */
  before: ReadonlyMap<string, IsoDate>;
};

export type PlannedTask = { id: string; job: string; mechanic: string; day: IsoDate; hours: number };

export type BenchPlan = { ok: true; tasks: PlannedTask[] } | { ok: false; why: 'no-mechanics' | 'no-plan' };

/** Half an hour is as fine as bench work is planned. */
const PERIODS_AN_HOUR = 2;
const SCHEDULES = 400;
const SCHEDULES_WHEN_LARGE = 60;
const LARGE = 600;

/**
 * A feasible plan of all bench work by the pairs of hands that there are, most weight on days wanted by, then on being
 * done early, then on staying near the plan before. Working days are laid end to end in half hours, so closed days
 * take no room. The search is the solver's.
 */
export function benchPlan(tasks: readonly BenchTask[], shop: BenchShop): BenchPlan {
  if (shop.mechanics.length === 0) return { ok: false, why: 'no-mechanics' };
  if (tasks.length === 0) return { ok: true, tasks: [] };
  const solved = solve(problemOf(tasks, shop), {
    schedules: tasks.length > LARGE ? SCHEDULES_WHEN_LARGE : SCHEDULES,
    seed: 1,
    objective: { makespan: 1, tardiness: 20, deviation: 0.5 },
    baseline: tasks.map(({ id }) => startBefore(shop, id)),
  });
  return solved.ok ? { ok: true, tasks: handOut(tasks, solved.start, shop) } : { ok: false, why: 'no-plan' };
}

const periodsADay = ({ hoursADay }: BenchShop): number =>
  Math.max(1, Math.round(hoursADay * PERIODS_AN_HOUR));

function problemOf(tasks: readonly BenchTask[], shop: BenchShop): Problem {
  const index = new Map(tasks.map(({ id }, place) => [id, place]));
  const day = periodsADay(shop);
  return {
    activities: tasks.map((task) => ({
      duration: Math.max(1, Math.round(task.hours * PERIODS_AN_HOUR)),
      demands: [1],
      release: task.notBefore === null ? 0 : periodOf(shop, task.notBefore),
      ...(task.wantedBy === null ? {} : { due: periodOf(shop, task.wantedBy) + day, weight: task.weight }),
    })),
    links: tasks.flatMap((task, to) =>
      task.after.flatMap(({ id, lagDays }) => {
        const from = index.get(id);
        return from === undefined ? [] : [{ from, to, lag: lagDays * day }];
      }),
    ),
    resources: [{ capacity: shop.mechanics.length }],
  };
}

/** The first period of a date; one that is past is now. */
function periodOf(shop: BenchShop, date: IsoDate): number {
  return Math.max(0, workingDaysBetween(shop.calendar, firstDay(shop), date)) * periodsADay(shop);
}

const firstDay = ({ calendar, today }: BenchShop): IsoDate => addWorkingDays(calendar, today, 0);

function startBefore(shop: BenchShop, id: string): number | null {
  const day = shop.before.get(id);
  return day === undefined || day < shop.today ? null : periodOf(shop, day);
}

/** Hands the work out: to whoever is free, those who worked on the same job last before others. */
function handOut(tasks: readonly BenchTask[], starts: readonly number[], shop: BenchShop): PlannedTask[] {
  const free = shop.mechanics.map((mechanic) => ({ mechanic, from: 0, job: '' }));
  const order = tasks
    .map((task, place) => ({ task, start: starts[place] ?? 0 }))
    .sort((a, b) => a.start - b.start);
  return order.flatMap(({ task, start }) => {
    const able = free.filter(({ from }) => from <= start);
    const hands = able.find(({ job }) => job === task.job) ?? able[0] ?? free[0];
    if (!hands) return [];
    hands.from = start + Math.max(1, Math.round(task.hours * PERIODS_AN_HOUR));
    hands.job = task.job;
    const day = addWorkingDays(shop.calendar, firstDay(shop), Math.floor(start / periodsADay(shop)));
    return [{ id: task.id, job: task.job, mechanic: hands.mechanic, day, hours: task.hours }];
  });
}
