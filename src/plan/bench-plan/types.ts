import type { IsoDate, WorkingCalendar } from '../calendar.js';

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

/** Where a task began in a plan: the day, the half hour of that day's bench time, and whose it was. */
export type PlannedStart = { day: IsoDate; halfHour: number; mechanic: string };

/** Somebody at the bench, with the days on which they are in; days on which the shop is closed are off in any case. */
export type Mechanic = { id: string; calendar: WorkingCalendar };

export type BenchShop = {
  today: IsoDate;
  calendar: WorkingCalendar;
  /** In the order in which work is handed out. */
  mechanics: readonly Mechanic[];
  /** Hours at the bench in a working day of one mechanic. */
  hoursADay: number;
  /** How many there are of each station; one that isn't named is never short. */
  stations: Readonly<Record<string, number>>;
  /** Where each task began in the plan before, so that a small change moves little. */
  before: ReadonlyMap<string, PlannedStart>;
};

/** A task on one day; one that takes longer than a day stands on each of its days with that day's hours. */
export type PlannedTask = PlannedStart & { id: string; job: string; hours: number };

export type BenchPlan = { ok: true; tasks: PlannedTask[] } | { ok: false; why: 'no-mechanics' | 'no-plan' };
