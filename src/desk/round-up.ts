import type { RoundUp } from '../shop/round-up.js';
import { roundUp } from '../shop/round-up.js';
import { shopCalendar, todayOf } from './calendars.js';
import type { JobStanding } from './store.js';
import type { Workplace } from './workplace.js';

/** What this morning holds over all open jobs. */
export async function findRoundUp(
  { store }: Workplace,
  now: number,
): Promise<RoundUp & { standings: readonly JobStanding[] }> {
  const { state: shop, policy } = await store.shop();
  const standings = await Promise.all(shop.jobs.filter(({ open }) => open).map(({ id }) => store.job(id)));
  const jobs = standings.map(({ id, state }) => ({ id, state }));
  return { ...roundUp(jobs, todayOf(policy, now), shopCalendar(policy), policy), standings };
}
