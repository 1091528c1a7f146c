/**
 * Calibration of the lead times on invented shops: share of truths in the 80 % interval (aim 75-85 % from four past
 * jobs on) and pinball loss against two plain answers. Run with `node dist/tests/bench/calibration.js`.
 */
import { calibrate } from '../plan/lead-times/calibration.js';
import type { World } from '../plan/lead-times/simulated-trade.js';

const SHOPS = Number(process.argv[2] ?? 400);
const worlds: World[] = ['lognormal', 'gamma', 'forgotten'];
console.log('world      past jobs  held  promised  without   loss: ours  promised date  supplier’s mean');
for (const world of worlds) {
  for (const jobs of [0, 1, 4, 10, 40]) {
    const { held, heldWithPromise, heldWithout, loss } = calibrate(SHOPS, jobs, world, 1);
    const percent = (share: number) => `${(100 * share).toFixed(1)} %`.padStart(8);
    const days = (value: number) => value.toFixed(2).padStart(11);
    console.log(
      world.padEnd(11),
      String(jobs).padStart(8),
      percent(held),
      percent(heldWithPromise),
      percent(heldWithout),
      days(loss.ours),
      days(loss.promisedDate),
      days(loss.suppliersMean),
    );
  }
}
