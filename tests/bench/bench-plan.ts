import { benchPlan, startsOf } from '../../src/plan/bench-plan.js';
import { inventShop, oneDayLater, shareKept } from '../plan/bench-shops.js';

const SHOPS = 100;
const AT_LEAST = 0.9;

/**
 * Stability: one thing moves by a working day; the share of the coming week's tasks that keep their day, with the plan
 * before as the baseline and without (nervousness as in Sridharan, Berry and Udayabhanu 1988; from memory).
 */
const shares = Array.from({ length: SHOPS }, (_, index) => {
  const first = inventShop(index + 1);
  const changed = oneDayLater(first, index + 1);
  const before = tasksOf(benchPlan(first.tasks, first.shop));
  const held = benchPlan(changed.tasks, { ...changed.shop, before: startsOf(before) });
  return {
    held: shareKept(before, tasksOf(held)),
    fresh: shareKept(before, tasksOf(benchPlan(changed.tasks, changed.shop))),
  };
});

function tasksOf(plan: ReturnType<typeof benchPlan>) {
  if (!plan.ok) throw new Error(`no plan: ${plan.why}`);
  return plan.tasks;
}

const mean = (of: 'held' | 'fresh'): number =>
  shares.reduce((sum, share) => sum + share[of], 0) / shares.length;
const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
console.log(`the bench plan's stability, over ${SHOPS} invented shops in which one thing moves by a day`);
console.log(
  `  tasks of the coming week that keep their day: ${percent(mean('held'))}  a fresh plan: ${percent(mean('fresh'))}  ${mean('held') >= AT_LEAST ? 'within' : 'beyond'} ${percent(AT_LEAST)} at least`,
);
console.log(`  the least of the shops: ${percent(Math.min(...shares.map(({ held }) => held)))}`);
