/** One step of a survival curve: what was still out just before `time`, what ended then, what share goes on. */
export type SurvivalStep = {
  time: number;
  atRisk: number;
  ended: number;
  survival: number;
  /** Standard error of `survival` by Greenwood's formula; NaN once nothing goes on. */
  standardError: number;
};

export type Survival = {
  steps: SurvivalStep[];
  /** The time by which a share `p` has ended, or null where the record doesn't reach so far. */
  quantile(p: number): number | null;
};

const SAME = 1e-9;

/**
 * The share still out after each time, from jobs that ended and jobs that are still out (Kaplan & Meier 1958; the
 * error after Greenwood 1926). It assumes no shape, so it says something only where there are many jobs. Where a
 * quantile falls on a flat of the curve, the middle of the flat is taken, as R's survival package does.
 */
export function kaplanMeier(jobs: readonly { days: number; ended: boolean }[]): Survival {
  const times = [...new Set(jobs.filter((job) => job.ended).map((job) => job.days))].sort((a, b) => a - b);
  const steps: SurvivalStep[] = [];
  let survival = 1;
  let greenwood = 0;
  for (const time of times) {
    const atRisk = jobs.filter((job) => job.days >= time).length;
    const ended = jobs.filter((job) => job.ended && job.days === time).length;
    survival *= 1 - ended / atRisk;
    greenwood += ended / (atRisk * (atRisk - ended));
    steps.push({ time, atRisk, ended, survival, standardError: survival * Math.sqrt(greenwood) });
  }
  const last = Math.max(0, ...jobs.map((job) => job.days));
  return { steps, quantile: (p) => quantileOf(steps, last, p) };
}

function quantileOf(steps: readonly SurvivalStep[], last: number, p: number): number | null {
  const reached = steps.findIndex((step) => 1 - step.survival >= p - SAME);
  const step = steps[reached];
  if (step === undefined) return null;
  if (1 - step.survival > p + SAME) return step.time;
  return (step.time + (steps[reached + 1]?.time ?? last)) / 2;
}
