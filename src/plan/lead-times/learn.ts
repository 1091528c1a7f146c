import { fitCensored, type Observation } from './censored-fit.js';
import { SHORTEST_DAYS, stillOutAfter, type LeadTime } from './lead-time.js';
import { promiseEvidence, promiseObservations, promisePrior, type PromisedDate } from './promises.js';

/** What the trade expects of a process: the median in working days, and the standard deviation of its logarithm. */
export type Prior = { median: number; spread: number };

export type { PromisedDate } from './promises.js';

/** A job sent out before: `days` until it was back or, where it isn't `back`, until now. Working days of the supplier. */
export type PastJob = {
  supplier: string;
  process: string;
  days: number;
  back: boolean;
  promises: readonly PromisedDate[];
};

export type LeadTimeQuestion = {
  supplier: string | null;
  process: string;
  /** Working days that it has been out; left out for a thing not sent yet. */
  out?: number;
  /** The promise in force, if any. */
  promise?: PromisedDate | null;
};

export type LeadTimes = {
  /** How long this takes in all, in working days since it went (or will go) out. */
  expect(question: LeadTimeQuestion): LeadTime;
  /** How many jobs this supplier has brought back. */
  known(supplier: string): number;
};

/** How the trade's spread of a process divides, in shares of its variance; settled by judgement, no source. */
const SHARES = { withinSupplier: 0.5, betweenSuppliers: 0.3, supplierAndProcess: 0.2 } as const;
/** The prior spread of one supplier counts as so many jobs. */
const SPREAD_FREEDOM = 5;
/** Other suppliers' jobs tell whether the trade's median holds hereabouts; each supplier counts as two at most. */
const POOL_WEIGHT = 2;

/**
 * Learns each supplier's lead times from the shop's own history, starting from the trade's priors.
 *
 * Method: the logarithm of the days is normal around the trade's median, moved by how other suppliers of the process
 * do here, by how this supplier does in all processes, and by how it does in this one. Each move is shrunk towards
 * none by its prior spread, (n·ȳ/σ² + μ₀/τ²)/(n/σ² + 1/τ²), and the spread of the supplier itself towards the trade's: a
 * conjugate regression, whose forecast of the next job is Student's t, wide while the jobs are few (Gelman et al.,
 * Bayesian Data Analysis, 3rd ed., ch. 3, 5, 14; Efron & Morris 1975 on shrinkage; from memory). Jobs still out
 * are right-censored at the days that they have been out (`fitCensored`). A job under way is conditioned on not
 * being back.
 *
 * A promised date is evidence of what is left from the day it was given. It is weighed by a second regression on the
 * promises that this supplier made before, itself starting from those made by all suppliers: one who keeps dates
 * is taken at their word, one whose dates say nothing is judged by their history.
 */
export function learnLeadTimes(past: readonly PastJob[], priorOf: (process: string) => Prior): LeadTimes {
  const jobs = past.map((job, index) => ({ ...job, index }));
  const usual = remember((supplier: string | null, process: string) =>
    usualTime(jobs, priorOf, supplier, process),
  );
  const promiseRows = lazy(() =>
    jobs.flatMap((job) =>
      promiseObservations(job, usual(job.supplier, job.process)).map((row) => ({
        row,
        supplier: job.supplier,
      })),
    ),
  );
  const kept = remember((supplier: string | null, _process: string) => {
    const rows = promiseRows();
    const others = rows.filter((one) => one.supplier !== supplier).map((one) => one.row);
    const own = rows.filter((one) => one.supplier === supplier).map((one) => one.row);
    return fitCensored(own, promisePrior(others));
  });
  return {
    expect: ({ supplier, process, out = 0, promise = null }) => {
      const time = usual(supplier, process);
      if (promise === null) return stillOutAfter(time, out);
      const { location, ahead } = promiseEvidence(promise, time);
      const left = kept(supplier, '').predict([1, ahead]);
      return { ...left, location: location + left.location, from: promise.given, atLeast: out };
    },
    known: (supplier) => past.filter((job) => job.supplier === supplier && job.back).length,
  };
}

type Job = PastJob & { index: number };

function usualTime(
  jobs: readonly Job[],
  priorOf: (process: string) => Prior,
  supplier: string | null,
  process: string,
): LeadTime {
  const { median, spread } = priorOf(process);
  const within = spread ** 2 * SHARES.withinSupplier;
  const base = (job: Job): number => Math.log(priorOf(job.process).median);
  const elsewhere = jobs.filter((job) => job.process === process && job.supplier !== supplier);
  const shift = fitCensored(poolObservations(elsewhere, base), {
    mean: [0],
    precision: [within / (spread ** 2 * SHARES.betweenSuppliers)],
    scale: spread,
    freedom: SPREAD_FREEDOM,
  }).coefficients[0];
  const own = jobs.filter((job) => job.supplier === supplier);
  const fit = fitCensored(
    own.map((job) => observe([1, job.process === process ? 1 : 0], job, base(job) + (shift ?? 0), 1)),
    {
      mean: [0, 0],
      precision: [
        within / (spread ** 2 * SHARES.betweenSuppliers),
        within / (spread ** 2 * SHARES.supplierAndProcess),
      ],
      scale: Math.sqrt(within),
      freedom: SPREAD_FREEDOM,
    },
  );
  const next = fit.predict([1, 1]);
  return { ...next, location: Math.log(median) + (shift ?? 0) + next.location, from: 0, atLeast: 0 };
}

function poolObservations(jobs: readonly Job[], base: (job: Job) => number): Observation[] {
  const counts = new Map<string, number>();
  for (const job of jobs) counts.set(job.supplier, (counts.get(job.supplier) ?? 0) + 1);
  return jobs.map((job) =>
    observe([1], job, base(job), Math.min(1, POOL_WEIGHT / (counts.get(job.supplier) ?? 1))),
  );
}

function observe(x: readonly number[], job: Job, base: number, weight: number): Observation {
  const low = Math.log(Math.max(SHORTEST_DAYS, job.days)) - base;
  return { x, low, high: job.back ? low : Infinity, weight };
}

function remember<T>(reckon: (supplier: string | null, process: string) => T) {
  const known = new Map<string, T>();
  return (supplier: string | null, process: string): T => {
    const key = JSON.stringify([supplier, process]);
    const found = known.get(key) ?? reckon(supplier, process);
    known.set(key, found);
    return found;
  };
}

function lazy<T>(reckon: () => T): () => T {
  let known: { value: T } | null = null;
  return () => (known ??= { value: reckon() }).value;
}
