import { daysAt } from '../../../src/plan/lead-times/lead-time.js';
import { learnLeadTimes } from '../../../src/plan/lead-times/learn.js';
import { priorOf, simulateShop, type Trial, type World } from './simulated-trade.js';

export type Calibration = {
  trials: number;
  /** Share of the truths within the 80 % interval (10th to 90th percentile). */
  held: number;
  /** The same among jobs with a promise, and among those without. */
  heldWithPromise: number;
  heldWithout: number;
  /** Mean pinball loss in days, over the 10th to 90th percentiles, of ours and of the two plain answers. */
  loss: { ours: number; promisedDate: number; suppliersMean: number };
};

const LEVELS = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

/** Runs invented shops with `jobsEach` past jobs and scores the learner against the truth it hasn't seen. */
export function calibrate(shops: number, jobsEach: number, world: World, firstSeed: number): Calibration {
  const scores: ReturnType<typeof scoreTrial>[] = [];
  for (let seed = firstSeed; seed < firstSeed + shops; seed += 1) {
    const trials = simulateShop(seed, jobsEach, world);
    const learnt = learnLeadTimes(trials[0]?.past ?? [], priorOf);
    for (const trial of trials) scores.push(scoreTrial(trial, learnt));
  }
  const promised = scores.filter((score) => score.promised);
  return {
    trials: scores.length,
    held: mean(scores.map((score) => score.held)),
    heldWithPromise: mean(promised.map((score) => score.held)),
    heldWithout: mean(scores.filter((score) => !score.promised).map((score) => score.held)),
    loss: {
      ours: mean(scores.map((score) => score.ours)),
      promisedDate: mean(scores.map((score) => score.promisedDate)),
      suppliersMean: mean(scores.map((score) => score.suppliersMean)),
    },
  };
}

function scoreTrial(trial: Trial, learnt: ReturnType<typeof learnLeadTimes>) {
  const { supplier, process, promise, days, past } = trial;
  const lead = learnt.expect({ supplier, process, promise });
  const own = past.filter((job) => job.supplier === supplier && job.back).map((job) => job.days);
  const usual = own.length > 0 ? mean(own) : priorOf(process).median;
  const held = daysAt(lead, 0.1) <= days && days <= daysAt(lead, 0.9) ? 1 : 0;
  return {
    held,
    promised: promise !== null,
    ours: pinball(days, (p) => daysAt(lead, p)),
    promisedDate: pinball(days, () => promise?.due ?? usual),
    suppliersMean: pinball(days, () => usual),
  };
}

/** The quantile loss of Koenker & Bassett 1978, averaged over nine levels. */
export function pinball(truth: number, answer: (p: number) => number): number {
  return mean(
    LEVELS.map((p) => {
      const miss = truth - answer(p);
      return Math.max(p * miss, (p - 1) * miss);
    }),
  );
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
