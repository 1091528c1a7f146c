import { fitCensored, type FitPrior, type Observation } from './censored-fit.js';
import { daysAt, SHORTEST_DAYS, stillOutAfter, type LeadTime } from './lead-time.js';

/** A date given for a job: when it was given, and the day promised, both in working days since it went out. */
export type PromisedDate = { given: number; due: number };

type KeptPromises = { days: number; back: boolean; promises: readonly PromisedDate[] };

/**
 * Dates kept: log(actual/usual) = late + weight × log(promised/usual) + error. Before anything is known a promise is
 * believed for the most part, and runs a little late; settled by judgement, no source.
 */
const PROMISE_PRIOR = { mean: [0.08, 0.75], deviation: [0.12, 0.2], scale: 0.25, freedom: 5 } as const;

/** What a promise says beside the usual time: the log of the usual time left, and how far it differs. */
export function promiseEvidence(promise: PromisedDate, usual: LeadTime): { location: number; ahead: number } {
  const left = daysAt(stillOutAfter(usual, promise.given), 0.5) - promise.given;
  const location = Math.log(Math.max(SHORTEST_DAYS, left));
  return { location, ahead: Math.log(Math.max(SHORTEST_DAYS, promise.due - promise.given)) - location };
}

/** What a job's promises show of how dates are kept: what was left when each was given, beside what was promised. */
export function promiseObservations(job: KeptPromises, usual: LeadTime): Observation[] {
  const made = job.promises.filter((promise) => promise.given < job.days);
  return made.map((promise) => {
    const { location, ahead } = promiseEvidence(promise, usual);
    const low = Math.log(Math.max(SHORTEST_DAYS, job.days - promise.given)) - location;
    return { x: [1, ahead], low, high: job.back ? low : Infinity, weight: 1 / made.length };
  });
}

/** What is believed of a supplier's promises before their own: the general prior, moved by those of all others. */
export function promisePrior(others: readonly Observation[]): FitPrior {
  const { mean, deviation, scale, freedom } = PROMISE_PRIOR;
  const precision = deviation.map((spread) => (scale / spread) ** 2);
  if (others.length === 0) return { mean, precision, scale, freedom };
  const all = fitCensored(others, { mean, precision, scale, freedom });
  return { mean: all.coefficients, precision, scale: all.scale, freedom };
}
