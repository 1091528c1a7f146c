/**
 * Calibration of the lead times on invented shops: share of truths in the 80 % interval (aim 75-85 % from four past
 * jobs on) and pinball loss against two plain answers; then the same of whole jobs' hand-over. Run with `node dist/tests/bench/calibration.js`.
 */
import { calibrateJobs } from '../plan/forecast/calibration.js';
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

console.log('\nhand-over of a job: true ones by the early, even and safe date (0.2, 0.5, 0.8 is the aim)');
console.log('world      past jobs   early    even    safe   loss: ours  promised dates  suppliers’ means');
for (const world of worlds) {
  for (const jobs of [0, 1, 4, 10, 40]) {
    const { byEarly, byEven, bySafe, loss } = calibrateJobs(SHOPS, jobs, world, 50_000);
    const share = (value: number) => value.toFixed(3).padStart(7);
    const days = (value: number) => value.toFixed(2).padStart(12);
    console.log(
      world.padEnd(11),
      String(jobs).padStart(8),
      share(byEarly),
      share(byEven),
      share(bySafe),
      days(loss.ours),
      days(loss.promisedDates),
      days(loss.suppliersMeans),
    );
  }
}
