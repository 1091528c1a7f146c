import { describe, expect, it } from 'vitest';
import { fitCensored, truncate, type FitPrior } from '../../../src/plan/lead-times/censored-fit.js';
import { kaplanMeier } from '../../../src/plan/lead-times/kaplan-meier.js';
import { chanceBy, daysAt, lognormal, stillOutAfter } from '../../../src/plan/lead-times/lead-time.js';
import { reference } from '../../support/reference.js';

type Step = {
  time: number;
  nRisk?: number;
  nEvent?: number;
  survival?: number;
  seGreenwood?: number | null;
  S?: string;
};
type Example = {
  id: string;
  data: unknown;
  published: Record<string, unknown>;
  exactHere?: { mu: number; sigma: number };
  variancePerPlayer?: number;
};
type Survival = {
  examples: Example[];
  orderStatisticFacts: { 'n=4': Record<string, number> };
  conditionalRemaining: {
    lognormalCheck_computed: {
      median: number;
      sigma: number;
      elapsed: number;
      conditionalMedianTotal: number;
      p80: number;
    };
  };
};

// Sources: the `source` of each example in the file, and tests/references/README.md; some are from memory, as it says there.
const survival = reference<Survival>('survival.json');

function example<T>(id: string): Example & { data: T } {
  const found = survival.examples.find((one) => one.id === id);
  if (!found) throw new Error(`no example ${id}`);
  return found as Example & { data: T };
}

/** No weight on the prior, so the fit is by maximum likelihood. */
const FLAT: FitPrior = { mean: [0], precision: [0], scale: 1, freedom: 0 };

type Timed = { time: number[]; event: number[] };
const jobsOf = ({ time, event }: Timed) => time.map((days, k) => ({ days, ended: event[k] === 1 }));

describe('Kaplan-Meier', () => {
  it.each(['aml-maintained', 'aml-nonmaintained', 'gehan-6mp'])('%s as published', (id) => {
    const { data, published } = example<Timed>(id);
    const { steps } = kaplanMeier(jobsOf(data));
    const table = published['km'] as Step[];
    expect(steps.map((step) => step.time)).toEqual(table.map((row) => row.time));
    table.forEach((row, k) => {
      expect(steps[k]?.atRisk).toBe(row.nRisk);
      expect(steps[k]?.ended).toBe(row.nEvent);
      // The printed tables have three or four digits.
      expect(Math.abs((steps[k]?.survival ?? 9) - (row.survival ?? 0))).toBeLessThan(6e-4);
      if (row.seGreenwood !== null) {
        expect(Math.abs((steps[k]?.standardError ?? 9) - (row.seGreenwood ?? 0))).toBeLessThan(6e-5);
      }
    });
  });

  it.each(['aml-maintained', 'aml-nonmaintained'])('%s: median and its interval on the log scale', (id) => {
    const { data, published } = example<Timed>(id);
    const curve = kaplanMeier(jobsOf(data));
    expect(curve.quantile(0.5)).toBe(published['median']);
    const bound = (sign: 1 | -1) =>
      curve.steps.find(
        (step) => step.survival * Math.exp((sign * 1.96 * step.standardError) / step.survival) <= 0.5,
      );
    expect([bound(-1)?.time ?? null, bound(1)?.time ?? null]).toEqual(published['median95CI']);
  });

  it('medians of both groups of the 6-MP trial', () => {
    const { data, published } = example<Timed & { controlTime: number[]; controlEvent: number[] }>(
      'gehan-6mp',
    );
    const control = { time: data.controlTime, event: data.controlEvent };
    expect(kaplanMeier(jobsOf(data)).quantile(0.5)).toBe(published['median6MP']);
    expect(kaplanMeier(jobsOf(control)).quantile(0.5)).toBe(published['medianControl']);
  });

  it('quantiles with ties, at flats and past the record', () => {
    const { data, published } = example<Timed>('km-quantile-ties');
    const curve = kaplanMeier(jobsOf(data));
    expect((published['p'] as number[]).map((p) => curve.quantile(p))).toEqual(published['quantile']);
    for (const { time, S } of published['km'] as Step[]) {
      const [above, below] = (S ?? '').split('/').map(Number);
      const step = curve.steps.find((one) => one.time === time);
      expect(step?.survival).toBeCloseTo((above ?? 0) / (below ?? 1), 12);
    }
  });

  it('says nothing from nothing', () => {
    expect(kaplanMeier([]).quantile(0.5)).toBeNull();
    expect(kaplanMeier([{ days: 9, ended: false }]).quantile(0.5)).toBeNull();
  });
});

describe('censored lognormal', () => {
  it('turbine wheels: seen only as cracked or not yet', () => {
    const { data, published, exactHere } = example<Record<string, number>[]>('turbine-lognormal-interval');
    const rows = data.flatMap((row) => {
      const inspected = Math.log(row['inspectedAt'] ?? 1);
      return [
        { x: [1], low: -Infinity, high: inspected, weight: row['cracked(left-censored)'] ?? 0 },
        { x: [1], low: inspected, high: Infinity, weight: row['notCracked(right-censored)'] ?? 0 },
      ].filter((observation) => observation.weight > 0);
    });
    const fit = fitCensored(rows, FLAT);
    expect(Math.abs((fit.coefficients[0] ?? 0) - Number(published['mu']))).toBeLessThan(1e-3);
    expect(Math.abs(fit.scale - Number(published['sigma']))).toBeLessThan(1e-3);
    expect(fit.coefficients[0]).toBeCloseTo(exactHere?.mu ?? 0, 4);
    expect(fit.scale).toBeCloseTo(exactHere?.sigma ?? 0, 4);
    // The information that censored rows carry gives nearly the published standard error of mu.
    const { scale } = fit.predict([1]);
    const error = Math.sqrt(scale ** 2 - fit.scale ** 2);
    expect(error / Number(published['seMu'])).toBeGreaterThan(0.6);
    expect(error / Number(published['seMu'])).toBeLessThan(1.1);
  });

  it('motorettes: right-censored, over temperature', () => {
    const { data, published } = example<{ temp: number; time: number; event: number }[]>(
      'motorette-lognormal-right-censored',
    );
    // As in the source: log10 of hours would only change the unit; the published fit is on natural logarithms.
    const rows = data.map(({ temp, time, event }) => {
      const low = Math.log(time);
      return { x: [1, 1000 / (273.2 + temp)], low, high: event === 1 ? low : Infinity, weight: 1 };
    });
    const fit = fitCensored(rows, { mean: [0, 0], precision: [0, 0], scale: 1, freedom: 0 });
    expect(Math.abs((fit.coefficients[0] ?? 0) - Number(published['intercept']))).toBeLessThan(2e-3);
    expect(Math.abs((fit.coefficients[1] ?? 0) - Number(published['slope']))).toBeLessThan(2e-3);
    expect(Math.abs(fit.scale - Number(published['sigma']))).toBeLessThan(1e-3);
    const quantiles = published['quantiles'] as Record<string, Record<string, number>>;
    for (const [celsius, row] of [
      [130, quantiles['130C']],
      [150, quantiles['150C']],
    ] as const) {
      const { coefficients, scale } = fit;
      const location = (coefficients[0] ?? 0) + ((coefficients[1] ?? 0) * 1000) / (273.2 + celsius);
      for (const [p, hours] of Object.entries(row ?? {})) {
        const ours = daysAt({ location, scale, freedom: Infinity, from: 0, atLeast: 0 }, Number(p));
        expect(Math.abs(ours / hours - 1)).toBeLessThan(1e-3);
      }
    }
  });

  it('the next observation, as Hahn & Meeker give it', () => {
    const { data, published } = example<number[]>('hahn-meeker-next-observation');
    const rows = data.map((y) => ({ x: [1], low: y, high: y, weight: 1 }));
    // The prior 1/sigma² (Jeffreys) is worth minus one observation.
    const next = fitCensored(rows, { ...FLAT, freedom: -1, scale: 0 }).predict([1]);
    expect(next.freedom).toBe(4);
    const [low, high] = published['pi95'] as [number, number];
    const at = (p: number) => Math.log(daysAt({ ...next, from: 0, atLeast: 0 }, p));
    expect(at(0.5)).toBeCloseTo(Number(published['mean']), 9);
    expect(Math.abs(at(0.025) - low)).toBeLessThan(0.06);
    expect(Math.abs(at(0.975) - high)).toBeLessThan(0.06);
  });
});

describe('shrinkage', () => {
  it('Efron & Morris: eighteen players drawn to their mean', () => {
    const { data, published, variancePerPlayer = 0 } = example<number[]>('efron-morris-shrinkage');
    const grand = data.reduce((sum, value) => sum + value, 0) / data.length;
    const squares = data.reduce((sum, value) => sum + (value - grand) ** 2, 0);
    const shrink = 1 - ((data.length - 3) * variancePerPlayer) / squares;
    expect(Math.abs(shrink - Number(published['shrinkFactor']))).toBeLessThan(1e-3);
    // A prior precision of (1 − c)/c observations is what the factor c means.
    const prior = {
      mean: [grand],
      precision: [(1 - shrink) / shrink],
      scale: Math.sqrt(variancePerPlayer),
      freedom: 1e9,
    };
    const top = data[0] ?? 0;
    const fit = fitCensored([{ x: [1], low: top, high: top, weight: 1 }], prior);
    expect(Math.abs((fit.coefficients[0] ?? 0) - Number(published['topPlayer']))).toBeLessThan(1e-3);
  });

  it('eight schools, wholly pooled', () => {
    const { data, published } = example<{ y: number[]; se: number[] }>('eight-schools-pooling');
    const rows = data.y.map((y, k) => ({ x: [1], low: y, high: y, weight: 1 / (data.se[k] ?? 1) ** 2 }));
    const fit = fitCensored(rows, { ...FLAT, freedom: 1e9, scale: 1 });
    expect(Math.abs((fit.coefficients[0] ?? 0) - Number(published['pooledMean']))).toBeLessThan(0.05);
    expect(Math.abs(fit.predict([1]).scale ** 2 - 1 - Number(published['pooledVariance']))).toBeLessThan(
      0.05,
    );
  });
});

describe('a lead time under way', () => {
  const check = survival.conditionalRemaining.lognormalCheck_computed;
  const out = stillOutAfter(lognormal(check.median, check.sigma), check.elapsed);

  it('is conditioned on not being back', () => {
    expect(daysAt(out, 0.5)).toBeCloseTo(check.conditionalMedianTotal, 6);
    expect(daysAt(out, 0.8)).toBeCloseTo(check.p80, 6);
    expect(chanceBy(out, check.p80)).toBeCloseTo(0.8, 9);
    expect(chanceBy(out, check.elapsed - 1)).toBe(0);
  });

  it('stays finite and later than now, however long it has been out', () => {
    for (const days of [100, 1e4, 1e9]) {
      const late = stillOutAfter(lognormal(10, 0.3), days);
      for (const p of [0.01, 0.5, 0.99]) {
        expect(daysAt(late, p)).toBeGreaterThanOrEqual(days);
        expect(Number.isFinite(daysAt(late, p))).toBe(true);
      }
    }
  });

  it('gives the moments of a normal cut off, also far out', () => {
    // Standard normal above 1: mean φ(1)/(1−Φ(1)) = 1.52514 and variance 0.19910 (textbook; from memory).
    const cut = truncate(0, 1, 1, Infinity);
    expect(cut.mean).toBeCloseTo(1.52514, 4);
    expect(cut.variance).toBeCloseTo(0.1991, 3);
    const before = truncate(0, 1, 4.999, Infinity);
    const past = truncate(0, 1, 5.001, Infinity);
    expect(Math.abs(past.mean - before.mean)).toBeLessThan(0.01);
    expect(Math.abs(past.variance - before.variance)).toBeLessThan(0.01);
  });
});
