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
  /** What it is done at besides a pair of hands: a lathe, a lift. */
  stations: readonly string[];
};

/** Where a task began in a plan: the day, and the half hour of that day's bench time. */
export type PlannedStart = { day: IsoDate; halfHour: number };

export type BenchShop = {
  today: IsoDate;
  calendar: WorkingCalendar;
  /** By id, in the order in which work is handed out. */
  mechanics: readonly string[];
  /** Hours at the bench in a working day of one mechanic. */
  hoursADay: number;
  /** How many there are of each station; one that isn't named is never short. */
  stations: Readonly<Record<string, number>>;
  /** Where each task began in the plan before, so that a small change moves little. */
  before: ReadonlyMap<string, PlannedStart>;
};

/** A task on one day; one that takes longer than a day stands on each of its days with that day's hours. */
export type PlannedTask = PlannedStart & { id: string; job: string; mechanic: string; hours: number };

export type BenchPlan = { ok: true; tasks: PlannedTask[] } | { ok: false; why: 'no-mechanics' | 'no-plan' };

/** Half an hour is as fine as bench work is planned. */
const PERIODS_AN_HOUR = 2;
/** A busy shop gets many schedules tried, a hundred jobs a few: the answer may not take longer for it. */
const PLACEMENTS = 40_000;
const SCHEDULES = { atLeast: 4, atMost: 400 };

/**
 * A feasible plan of all bench work by the pairs of hands that there are, most weight on days wanted by, then on being
 * done early, then on staying near the plan before. Working days are laid end to end in half hours, so closed days
 * take no room. The search is the solver's.
 */
export function benchPlan(tasks: readonly BenchTask[], shop: BenchShop): BenchPlan {
  if (shop.mechanics.length === 0) return { ok: false, why: 'no-mechanics' };
  if (tasks.length === 0) return { ok: true, tasks: [] };
  const solved = solve(problemOf(tasks, shop), {
    schedules: schedulesFor(tasks.length),
    seed: 1,
    objective: { makespan: 1, tardiness: 20, deviation: 0.5 },
    baseline: tasks.map(({ id }) => startBefore(shop, id)),
  });
  return solved.ok ? { ok: true, tasks: handOut(tasks, solved.start, shop) } : { ok: false, why: 'no-plan' };
}

/** How many schedules are tried, by the number of tasks: what bounds the time it takes. */
export function schedulesFor(tasks: number): number {
  return Math.max(SCHEDULES.atLeast, Math.min(SCHEDULES.atMost, Math.floor(PLACEMENTS / Math.max(1, tasks))));
}

const periodsADay = ({ hoursADay }: BenchShop): number =>
  Math.max(1, Math.round(hoursADay * PERIODS_AN_HOUR));

const periodsOf = ({ hours }: BenchTask): number => Math.max(1, Math.round(hours * PERIODS_AN_HOUR));

function problemOf(tasks: readonly BenchTask[], shop: BenchShop): Problem {
  const waitedFor = new Set(tasks.flatMap(({ after }) => after.map(({ id }) => id)));
  const stations = Object.keys(shop.stations);
  const index = new Map(tasks.map(({ id }, place) => [id, place]));
  const day = periodsADay(shop);
  return {
    activities: tasks.map((task) => ({
      duration: periodsOf(task),
      demands: [1, ...stations.map((station) => (task.stations.includes(station) ? 1 : 0))],
      release: task.notBefore === null ? 0 : periodOf(shop, task.notBefore),
      // A job's day is that of its last work, not of each piece of it.
      ...(task.wantedBy === null || waitedFor.has(task.id)
        ? {}
        : { due: periodOf(shop, task.wantedBy) + day, weight: task.weight }),
    })),
    links: tasks.flatMap((task, to) =>
      task.after.flatMap(({ id, lagDays }) => {
        const from = index.get(id);
        return from === undefined ? [] : [{ from, to, lag: lagDays * day }];
      }),
    ),
    resources: [
      { capacity: shop.mechanics.length },
      ...stations.map((station) => ({ capacity: Math.max(1, shop.stations[station] ?? 1) })),
    ],
  };
}

/** The first period of a date; one that is past is now. */
function periodOf(shop: BenchShop, date: IsoDate): number {
  return Math.max(0, workingDaysBetween(shop.calendar, firstDay(shop), date)) * periodsADay(shop);
}

const firstDay = ({ calendar, today }: BenchShop): IsoDate => addWorkingDays(calendar, today, 0);

function startBefore(shop: BenchShop, id: string): number | null {
  const before = shop.before.get(id);
  return before === undefined || before.day < shop.today
    ? null
    : periodOf(shop, before.day) + before.halfHour;
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
    hands.from = start + periodsOf(task);
    hands.job = task.job;
    return byDay(task, start, shop).map((part) => ({ ...part, job: task.job, mechanic: hands.mechanic }));
  });
}

function byDay(task: BenchTask, start: number, shop: BenchShop): Omit<PlannedTask, 'job' | 'mechanic'>[] {
  const day = periodsADay(shop);
  const end = start + periodsOf(task);
  const parts: Omit<PlannedTask, 'job' | 'mechanic'>[] = [];
  for (let from = start; from < end; from = (Math.floor(from / day) + 1) * day) {
    const worked = Math.min(end, (Math.floor(from / day) + 1) * day) - from;
    parts.push({
      id: task.id,
      day: addWorkingDays(shop.calendar, firstDay(shop), Math.floor(from / day)),
      halfHour: from % day,
      hours: (task.hours * worked) / (end - start),
    });
  }
  return parts;
}
