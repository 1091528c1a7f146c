import { expect, it } from 'vitest';
import { calibrateJobs } from './calibration.js';

// The whole table is printed by tests/bench/calibration.ts. A safe date is the first whole day by which four runs in
// five are done, so that a little more than four truths in five lie by it. Standard error at 250 jobs: 0.025.
it.each([
  [4, 'lognormal', 7000],
  [10, 'gamma', 8000],
] as const)('dates of whole jobs hold, with %i past jobs of each supplier, %s', (pastJobs, world, seed) => {
  const { byEarly, byEven, bySafe, loss } = calibrateJobs(250, pastJobs, world, seed);
  expect(Math.abs(bySafe - 0.83)).toBeLessThan(0.075);
  expect(Math.abs(byEven - 0.54)).toBeLessThan(0.1);
  expect(Math.abs(byEarly - 0.23)).toBeLessThan(0.075);
  expect(loss.ours).toBeLessThan(loss.promisedDates);
  expect(loss.ours).toBeLessThan(loss.suppliersMeans);
});
