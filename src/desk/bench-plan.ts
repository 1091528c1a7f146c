import { benchTasks } from '../job/plan/bench-tasks.js';
import type { PlannedTask } from '../plan/bench-plan.js';
import { benchPlan } from '../plan/bench-plan.js';
import { peopleWith } from '../shop/state.js';
import { shopCalendar, todayOf } from './calendars.js';
import { BENCH_HOURS, plansOf } from './planning.js';
import type { JobStanding } from './store.js';
import type { Workplace } from './workplace.js';

export type ShopPlan = {
  standings: readonly JobStanding[];
  tasks: readonly PlannedTask[];
  mechanics: readonly string[];
};

/** The plan of each shop as it was last reckoned, so that a small change moves little. It may be lost: then it is made afresh. */
const lastDays = new WeakMap<object, ReadonlyMap<string, string>>();

/** Who does what on which day, over all open jobs; empty where nobody is there to do it. */
export async function shopPlan(place: Workplace, now: number): Promise<ShopPlan> {
  const { state: shop, policy } = await place.store.shop();
  const standings = await Promise.all(
    shop.jobs.filter(({ open }) => open).map(({ id }) => place.store.job(id)),
  );
  const plans = await plansOf(place, standings, now);
  const tasks = standings.flatMap(({ id, state }) => {
    const plan = plans.get(id);
    return plan ? benchTasks(id, state, plan.model, plan.forecast) : [];
  });
  const mechanics = peopleWith(shop, 'mechanic').map(({ id }) => id);
  const planned = benchPlan(tasks, {
    today: todayOf(policy, now),
    calendar: shopCalendar(policy),
    mechanics,
    hoursADay: BENCH_HOURS,
    before: lastDays.get(place.deps.record) ?? new Map(),
  });
  const found = planned.ok ? planned.tasks : [];
  lastDays.set(place.deps.record, new Map(found.map(({ id, day }) => [id, day])));
  return { standings, tasks: found, mechanics };
}
