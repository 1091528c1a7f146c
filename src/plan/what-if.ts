import type { Gate } from '../trade/terms.js';
import { dayNumber } from './days.js';
import { forecast, type Forecast, type ForecastOptions, type GoalForecast } from './forecast.js';
import type { LeadTime } from './lead-times/lead-time.js';
import type { ModelFault, PlanActivity, PlanLink, PlanModel } from './model.js';

/** A supposition about a job. */
export type Change =
  /** One thing ends so many working days later (hours, for bench work); fewer than 0 is sooner. */
  | { kind: 'later'; id: string; by: number }
  /** All that is still to come from a supplier is later, in working days. */
  | { kind: 'supplier-later'; supplier: string; by: number }
  /** Done another way: bought new in place of being replated, say. It is taken as not begun. */
  | { kind: 'instead'; id: string; activity: Partial<Omit<PlanActivity, 'id'>> & { takes: LeadTime } }
  /** Not needed after all: what came after it waits for what came before it. */
  | { kind: 'left-out'; id: string }
  /** Something more to do, before and after these. */
  | { kind: 'more'; activity: PlanActivity; after: readonly string[]; before: readonly string[] }
  | { kind: 'bench-hours'; aDay: number };

/** How a goal moves: calendar days later (earlier where negative) at even chances and at four in five. */
export type GoalShift = { before: GoalForecast; after: GoalForecast; even: number; safe: number };

export type WhatIf = {
  ok: true;
  before: Forecast;
  after: Forecast;
  handOver: GoalShift;
  /** Gates that are in both forecasts. */
  gates: ReadonlyMap<Gate, GoalShift>;
};

export type WhatIfFault =
  ModelFault | { kind: 'nothing-from'; supplier: string } | { kind: 'done-already'; id: string };

export type WhatIfResult = WhatIf | { ok: false; fault: WhatIfFault };

/**
 * The forecast as things are and as they would be, both over the same draws, so that what moves is the change and
 * not chance. A supposition about an activity that isn't there, or is done, is refused by name.
 */
export function whatIf(model: PlanModel, changes: readonly Change[], options: ForecastOptions): WhatIfResult {
  let changed = model;
  for (const change of changes) {
    const fault = changeFault(changed, change);
    if (fault) return { ok: false, fault };
    changed = applyChange(changed, change);
  }
  const before = forecast(model, options);
  if (!before.ok) return before;
  const after = forecast(changed, options);
  if (!after.ok) return after;
  const gates = [...before.gates].flatMap(([gate, was]): [Gate, GoalShift][] => {
    const is = after.gates.get(gate);
    return is ? [[gate, shift(was, is)]] : [];
  });
  return { ok: true, before, after, handOver: shift(before.handOver, after.handOver), gates: new Map(gates) };
}

/** A model with one change made; the change is taken to be sound. */
export function applyChange(model: PlanModel, change: Change): PlanModel {
  switch (change.kind) {
    case 'later':
      return withActivities(model, (one) => (one.id === change.id ? later(one, change.by) : one));
    case 'supplier-later':
      return withActivities(model, (one) => (comesFrom(one, change.supplier) ? later(one, change.by) : one));
    case 'instead':
      return withActivities(model, (one) =>
        one.id === change.id ? { ...one, later: 0, started: null, ...change.activity } : one,
      );
    case 'left-out':
      return leftOut(model, change.id);
    case 'more': {
      const { activity, after, before } = change;
      const links: PlanLink[] = [
        ...after.map((from) => ({ from, to: activity.id })),
        ...before.map((to) => ({ from: activity.id, to })),
      ];
      return { ...model, activities: [...model.activities, activity], links: [...model.links, ...links] };
    }
    case 'bench-hours':
      return { ...model, benchHoursADay: change.aDay };
  }
}

function changeFault(model: PlanModel, change: Change): WhatIfFault | null {
  switch (change.kind) {
    case 'later':
    case 'instead':
    case 'left-out': {
      const activity = model.activities.find((one) => one.id === change.id);
      if (!activity) return { kind: 'unknown-activity', id: change.id };
      return activity.finished === null ? null : { kind: 'done-already', id: change.id };
    }
    case 'supplier-later': {
      const any = model.activities.some((one) => comesFrom(one, change.supplier));
      return any ? null : { kind: 'nothing-from', supplier: change.supplier };
    }
    case 'more':
    case 'bench-hours':
      // The forecast itself finds what is wrong with these.
      return null;
  }
}

function comesFrom(activity: PlanActivity, supplier: string): boolean {
  return activity.supplier === supplier && activity.finished === null;
}

function later(activity: PlanActivity, by: number): PlanActivity {
  return { ...activity, later: (activity.later ?? 0) + by };
}

function withActivities(model: PlanModel, change: (activity: PlanActivity) => PlanActivity): PlanModel {
  return { ...model, activities: model.activities.map(change) };
}

function leftOut(model: PlanModel, id: string): PlanModel {
  const into = model.links.filter((link) => link.to === id && link.from !== id);
  const outOf = model.links.filter((link) => link.from === id && link.to !== id);
  // A wait after what came before (paint that cures) is still a wait; that after what is left out goes with it.
  const bridges = into.flatMap(({ from, lag }) =>
    outOf.map(({ to }): PlanLink => (lag ? { from, to, lag } : { from, to })),
  );
  return {
    ...model,
    activities: model.activities.filter((one) => one.id !== id),
    links: [...model.links.filter((link) => link.from !== id && link.to !== id), ...bridges],
  };
}

function shift(before: GoalForecast, after: GoalForecast): GoalShift {
  return {
    before,
    after,
    even: dayNumber(after.even) - dayNumber(before.even),
    safe: dayNumber(after.safe) - dayNumber(before.safe),
  };
}
