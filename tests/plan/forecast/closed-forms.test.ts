import jStat from 'jstat';
import { describe, expect, it } from 'vitest';
import { compileModel, type CompiledModel } from '../../../src/plan/forecast/compile.js';
import { TICKS } from '../../../src/plan/forecast/day-table.js';
import { SLICES } from '../../../src/plan/forecast/draws.js';
import { goalsOf } from '../../../src/plan/forecast/goals.js';
import { simulate } from '../../../src/plan/forecast/simulate.js';
import { reference } from '../../support/reference.js';
import { activity, everyDay } from './invented-job.js';

type ClosedForm = { id: string; mean?: number; variance?: number; p_le_11?: number; criticality?: number };
type PertExample = {
  id: string;
  activities: { id: string; duration: number; variance: number }[];
  expected: { criticalActivities: string[]; probabilities?: { by: number; p: number }[] };
};

// Sources: the `source` of each row in the file (Clark 1961 for the greatest of two), and tests/references/README.md.
const { monteCarloClosedForms, examples } = reference<{
  monteCarloClosedForms: ClosedForm[];
  examples: PertExample[];
}>('cpm-examples.json');

/** A hundred days stand for one unit, so that whole days tell hundredths apart. */
const UNIT = 100;
const RUNS = 40_000;

/** Simulates activities with the given quantile functions, all at once or one after the other. */
function simulated(quantiles: ((p: number) => number)[], chained: boolean) {
  const activities = quantiles.map((_, k) => activity(`${k}`));
  const links = chained ? quantiles.slice(1).map((_, k) => ({ from: `${k}`, to: `${k + 1}` })) : [];
  const compiled = compileModel({
    today: '2026-03-02',
    benchHoursADay: 1,
    calendars: { shop: everyDay },
    activities,
    links,
  });
  if (!compiled.ok) throw new Error(JSON.stringify(compiled.fault));
  const lengths = quantiles.map((quantile) =>
    Int32Array.from({ length: SLICES }, (_, k) => Math.round(quantile((k + 0.5) / SLICES) * UNIT * TICKS)),
  );
  const model: CompiledModel = { ...compiled.model, lengths };
  const result = simulate(model, goalsOf(model), RUNS, 5);
  const values: number[] = [];
  const first = model.today / TICKS;
  result.goals.at(-1)?.onDay.forEach((runs, day) => {
    // Times of day are cut off: the middle of the day stands for it.
    for (let k = 0; k < runs; k += 1) values.push((day - first + 0.5) / UNIT);
  });
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  const by = (limit: number): number => values.filter((value) => value <= limit).length / values.length;
  return { mean, variance, by, critical: [...result.critical] };
}

const normal = (mean: number, deviation: number) => (p: number) => jStat.normal.inv(p, mean, deviation);
const form = (id: string): ClosedForm => {
  const found = monteCarloClosedForms.find((one) => one.id === id);
  if (!found) throw new Error(`no closed form ${id}`);
  return found;
};

describe('simulation against closed forms', () => {
  // Tolerances are four standard errors at 40,000 runs.
  it('the greatest of two normals: mean, variance, chance and criticality', () => {
    const { mean, variance, p_le_11, criticality } = form('merge-bias-2');
    const ours = simulated([normal(10, 1), normal(10, 1)], false);
    expect(Math.abs(ours.mean - (mean ?? 0))).toBeLessThan(0.017);
    expect(Math.abs(ours.variance - (variance ?? 0))).toBeLessThan(0.025);
    expect(Math.abs(ours.by(11) - (p_le_11 ?? 0))).toBeLessThan(0.0095);
    for (const share of ours.critical) expect(Math.abs(share - (criticality ?? 0))).toBeLessThan(0.025);
  });

  it.each([2, 5, 20])('the greatest of %i even spreads', (n) => {
    // max-n-uniform: mean n/(n+1), variance n/((n+1)²(n+2)); times 10, so that the days tell enough.
    const ours = simulated(
      new Array<(p: number) => number>(n).fill((p) => 10 * p),
      false,
    );
    const variance = (100 * n) / ((n + 1) ** 2 * (n + 2));
    expect(form('max-n-uniform')).toBeDefined();
    expect(Math.abs(ours.mean - (10 * n) / (n + 1))).toBeLessThan(4 * Math.sqrt(variance / RUNS) + 0.01);
    expect(Math.abs(ours.variance / variance - 1)).toBeLessThan(0.05);
  });

  it('a chain of lognormals, and one of triangles', () => {
    // lognormal: mean exp(mu + s²/2), variance (exp(s²) − 1)·exp(2mu + s²); the table's ends cut off 1 in 500.
    const s = 0.2;
    const ours = simulated(
      new Array<(p: number) => number>(4).fill((p) => 2 * Math.exp(s * normal(0, 1)(p))),
      true,
    );
    expect(Math.abs(ours.mean - 4 * 2 * Math.exp(s ** 2 / 2))).toBeLessThan(0.03);
    expect(Math.abs(ours.variance / (4 * 4 * (Math.exp(s ** 2) - 1) * Math.exp(s ** 2)) - 1)).toBeLessThan(
      0.05,
    );
    // triangular(1, 2, 4): mean 7/3, variance 14/36·... = (1 + 4 + 16 − 2 − 4 − 8)/18.
    const triangle = (p: number) => (p < 1 / 3 ? 1 + Math.sqrt(3 * p) : 4 - Math.sqrt(6 * (1 - p)));
    const three = simulated([triangle, triangle, triangle], true);
    expect(Math.abs(three.mean - 7)).toBeLessThan(0.03);
    expect(Math.abs(three.variance / (3 * (7 / 18)) - 1)).toBeLessThan(0.05);
  });

  const pert = examples.filter((example) => example.expected.probabilities?.length);
  it.each(pert)('chance of being done by a day on the critical path: $id', ({ activities, expected }) => {
    // PERT takes the critical path alone, and its sum as normal: so the path is simulated alone, of normal parts.
    const path = activities.filter((one) => expected.criticalActivities.includes(one.id));
    const scale = 4;
    const ours = simulated(
      path.map((one) => normal(one.duration / scale, Math.sqrt(one.variance) / scale)),
      true,
    );
    for (const { by, p } of expected.probabilities ?? []) {
      expect(Math.abs(ours.by(by / scale) - p)).toBeLessThan(0.012);
    }
  });
});
