import { describe, expect, it } from 'vitest';
import { daysAt } from '../../../src/plan/lead-times/lead-time.js';
import { learnLeadTimes, type PastJob } from '../../../src/plan/lead-times/learn.js';
import { calibrate } from './calibration.js';
import { priorOf } from './simulated-trade.js';

function jobs(supplier: string, days: number[], promised?: (days: number) => number): PastJob[] {
  return days.map((length) => ({
    supplier,
    process: 'chrome',
    days: length,
    back: true,
    promises: promised ? [{ given: 0, due: promised(length) }] : [],
  }));
}

const ask = { supplier: 'Tarn Plating', process: 'chrome' };
const median = (past: PastJob[], more = {}): number =>
  daysAt(learnLeadTimes(past, priorOf).expect({ ...ask, ...more }), 0.5);
const width = (past: PastJob[], more = {}): number => {
  const lead = learnLeadTimes(past, priorOf).expect({ ...ask, ...more });
  return daysAt(lead, 0.9) / daysAt(lead, 0.1);
};

describe('lead times learnt', () => {
  it('goes from the trade’s prior to the supplier’s own record as jobs come in', () => {
    const record = [38, 42, 40, 45, 36, 41, 39, 44, 37, 43];
    const after = [0, 1, 4, 10, 40].map((n) =>
      median(
        jobs(
          'Tarn Plating',
          Array.from({ length: n }, (_, k) => record[k % 10] ?? 40),
        ),
      ),
    );
    expect(after[0]).toBeCloseTo(25, 6);
    for (let k = 1; k < after.length; k += 1) expect(after[k]).toBeGreaterThan(after[k - 1] ?? 99);
    expect(Math.abs((after[4] ?? 0) - 40)).toBeLessThan(1);
  });

  it('grows surer with more jobs, never sure', () => {
    const widths = [0, 1, 4, 40].map((n) => width(jobs('Tarn Plating', new Array<number>(n).fill(25))));
    for (let k = 1; k < widths.length; k += 1) expect(widths[k]).toBeLessThan(widths[k - 1] ?? 0);
    expect(widths[3]).toBeGreaterThan(1.05);
  });

  it('takes a job still out as at least so long', () => {
    const three = jobs('Tarn Plating', [20, 22, 21]);
    const out = (days: number): PastJob => ({ ...ask, days, back: false, promises: [] });
    const learnt = (days: number) => median([...three, out(days)]);
    expect(learnt(60)).toBeGreaterThan(median(three) * 1.1);
    // Sent out yesterday, it says next to nothing.
    expect(Math.abs(learnt(1) / median(three) - 1)).toBeLessThan(0.01);
    expect(width([...three, out(1)]) / width(three)).toBeGreaterThan(0.98);
  });

  it('learns from the same supplier’s other work, and from other suppliers, less', () => {
    const slow = [50, 48, 52, 51, 49, 50];
    const other = jobs('Fell Electroplate', slow);
    // Twice the usual time, as above; paint usually takes 20 days.
    const sameFirm = jobs('Tarn Plating', [40, 39, 41]).map((job) => ({ ...job, process: 'paint' }));
    expect(median(other)).toBeGreaterThan(27);
    expect(median(sameFirm)).toBeGreaterThan(median(other));
    expect(median(jobs('Tarn Plating', slow.slice(0, 3)))).toBeGreaterThan(median(sameFirm));
    // Six jobs of one supplier don't speak for the whole trade.
    expect(median(other)).toBeLessThan(42);
  });

  it('weighs a promise by how dates were kept', () => {
    const lengths = [14, 40, 22, 31, 18, 36, 27, 16, 33, 24, 20, 38];
    const kept = jobs('Tarn Plating', lengths, (days) => days);
    const habit = jobs('Tarn Plating', lengths, () => 15);
    const promise = { given: 0, due: 12 };
    expect(Math.abs(median(kept, { promise }) - 12)).toBeLessThan(2);
    expect(median(habit, { promise })).toBeGreaterThan(17);
    expect(width(kept, { promise })).toBeLessThan(width(habit, { promise }) * 0.8);
    // Always a week late: what they say is moved by what they do.
    const late = jobs('Tarn Plating', lengths, (days) => days - 7);
    expect(median(late, { promise: { given: 0, due: 20 } })).toBeGreaterThan(23.5);
  });

  it('counts a moved promise from the day it was given, and a job under way from now', () => {
    const past = jobs('Tarn Plating', [24, 26, 25, 27], (days) => days);
    const moved = { promise: { given: 30, due: 35 }, out: 31 };
    expect(Math.abs(median(past, moved) - 35)).toBeLessThan(2.5);
    const overdue = { promise: { given: 0, due: 25 }, out: 40 };
    const lead = learnLeadTimes(past, priorOf).expect({ ...ask, ...overdue });
    expect(daysAt(lead, 0.01)).toBeGreaterThan(40);
    expect(daysAt(lead, 0.5)).toBeLessThan(80);
  });

  it('answers for a supplier and a process that it has never met', () => {
    const learnt = learnLeadTimes(jobs('Tarn Plating', [0, 0, 1]), priorOf);
    const lead = learnt.expect({ supplier: null, process: 'upholster' });
    expect(daysAt(lead, 0.5)).toBeCloseTo(priorOf('upholster').median, 6);
    expect(learnt.known('Tarn Plating')).toBe(3);
    expect(learnt.known('nobody')).toBe(0);
    expect(Number.isFinite(daysAt(learnt.expect(ask), 0.9))).toBe(true);
  });
});

describe('calibration on invented shops', () => {
  // The whole table is printed by tests/bench/calibration.ts.
  it.each([
    [4, 'lognormal', 1000],
    [10, 'gamma', 2000],
    [12, 'forgotten', 3000],
  ] as const)('%i past jobs each, %s', (jobsEach, world, seed) => {
    const { trials, held, loss } = calibrate(100, jobsEach, world, seed);
    expect(trials).toBe(600);
    expect(held).toBeGreaterThanOrEqual(0.75);
    expect(held).toBeLessThanOrEqual(0.85);
    expect(loss.ours).toBeLessThan(loss.promisedDate);
    expect(loss.ours).toBeLessThan(loss.suppliersMean);
  });
});
