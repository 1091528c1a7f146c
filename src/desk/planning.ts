import { pastJobs, PARTS } from '../job/plan/history.js';
import { planModel } from '../job/plan/model.js';
import { forecast } from '../plan/forecast.js';
import { learnLeadTimes } from '../plan/lead-times/learn.js';
import type { JobPlan } from '../wording/plan.js';
import type { ModelFault, PlanModel } from '../plan/model.js';
import { leadTimePrior, PARTS_LEAD_TIME } from '../trade/processes.js';
import { peopleWith } from '../shop/state.js';
import { calendarOf, shopCalendar, todayOf } from './calendars.js';
import type { JobStanding } from './store.js';
import type { Workplace } from './workplace.js';

/**
 * Enough runs that a date at four chances in five is steady to a day or so, and one seed for all forecasts: what moves
 * between two is what changed, not chance.
 */
export const FORECASTING = { runs: 4_000, seed: 1 };

/** The models of jobs as they stand, with lead times learnt from all the shop's jobs, those handed over too. */
export async function planModels(
  place: Workplace,
  jobs: readonly JobStanding[],
  now: number,
): Promise<Map<string, PlanModel>> {
  const { state: shop, policy } = await place.store.shop();
  const today = todayOf(policy, now);
  const all = await Promise.all(shop.jobs.map(({ id }) => place.store.job(id)));
  const ofSupplier = (person: string) => calendarOf(person, shop, policy);
  const priorOf = (process: string) => (process === PARTS ? PARTS_LEAD_TIME : leadTimePrior(process));
  const leadTimes = learnLeadTimes(
    pastJobs(
      all.map(({ state }) => state),
      ofSupplier,
      today,
    ),
    priorOf,
  );
  const open = shop.jobs.filter((job) => job.open).length;
  const hands = Math.max(1, peopleWith(shop, 'mechanic').length);
  const context = {
    today,
    benchHoursADay: (policy.bench.hoursADay * hands) / Math.max(1, open),
    shopCalendar: shopCalendar(policy),
    calendarOf: ofSupplier,
    leadTimes,
    rules: { ownerYesFrom: policy.owner.yesFrom },
  };
  return new Map(jobs.map(({ id, state }) => [id, planModel(state, context)]));
}

/** Plans by job, and why there is none of the others. */
export type Plans = { plans: ReadonlyMap<string, JobPlan>; faults: ReadonlyMap<string, ModelFault> };

/** Each job's model and forecast. */
export async function planAll(place: Workplace, jobs: readonly JobStanding[], now: number): Promise<Plans> {
  const plans = new Map<string, JobPlan>();
  const faults = new Map<string, ModelFault>();
  for (const [id, model] of await planModels(place, jobs, now)) {
    const found = forecast(model, FORECASTING);
    if (found.ok) plans.set(id, { model, forecast: found });
    else {
      faults.set(id, found.fault);
      place.deps.log.warn({ job: id, fault: found.fault }, 'a job cannot be planned');
    }
  }
  return { plans, faults };
}

/** The plans of those jobs that can be reckoned with. */
export async function plansOf(
  place: Workplace,
  jobs: readonly JobStanding[],
  now: number,
): Promise<Plans['plans']> {
  return (await planAll(place, jobs, now)).plans;
}
