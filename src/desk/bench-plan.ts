import { benchTasks } from '../job/plan/bench-tasks.js';
import type { PlannedStart, PlannedTask } from '../plan/bench-plan.js';
import { benchPlan, startsOf } from '../plan/bench-plan.js';
import { peopleWith } from '../shop/state.js';
import { mechanicCalendar, shopCalendar, todayOf } from './calendars.js';
import type { Plans } from './planning.js';
import { planAll } from './planning.js';
import type { JobStanding } from './store.js';
import type { Workplace } from './workplace.js';

export type ShopPlan = Plans & {
  standings: readonly JobStanding[];
  tasks: readonly PlannedTask[];
  mechanics: readonly string[];
};

/** The plan of each shop as it was last reckoned, so that a small change moves little. It may be lost: then it is made afresh. */
const lastPlans = new WeakMap<object, ReadonlyMap<string, PlannedStart>>();

const MONTH_MS = 30 * 24 * 3_600_000;

/** Who does what on which day, over all open jobs; empty where nobody is there to do it. */
export async function shopPlan(place: Workplace, now: number): Promise<ShopPlan> {
  const { state: shop, policy } = await place.store.shop();
  const { hoursADay, stations, waitingCounts } = policy.bench;
  const standings = await Promise.all(
    shop.jobs.filter(({ open }) => open).map(({ id }) => place.store.job(id)),
  );
  const found = await planAll(place, standings, now);
  const tasks = standings.flatMap(({ id, state }) => {
    const plan = found.plans.get(id);
    if (!plan) return [];
    const months = Math.max(0, now - state.openedAt) / MONTH_MS;
    return benchTasks(id, state, plan.model, plan.forecast, 1 + waitingCounts * months);
  });
  const mechanics = peopleWith(shop, 'mechanic').map(({ id }) => id);
  const { memory } = place.deps.record;
  const planned = benchPlan(tasks, {
    today: todayOf(policy, now),
    calendar: shopCalendar(policy),
    mechanics: mechanics.map((id) => ({ id, calendar: mechanicCalendar(id, shop, policy) })),
    hoursADay,
    stations,
    before: lastPlans.get(memory) ?? new Map(),
  });
  if (planned.ok) lastPlans.set(memory, startsOf(planned.tasks));
  return { ...found, standings, tasks: planned.ok ? planned.tasks : [], mechanics };
}
