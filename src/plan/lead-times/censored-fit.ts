import jStat from 'jstat';

/** One observation: `y` lies from `low` to `high` (equal where it was seen; `high` Infinity for 'at least'). */
export type Observation = { x: readonly number[]; low: number; high: number; weight: number };

/**
 * What is believed before any data: coefficients `mean` with `precision` (their inverse variance in units of
 * sigma²), and sigma² around `scale²` with the weight of `freedom` observations.
 */
export type FitPrior = {
  mean: readonly number[];
  precision: readonly number[];
  scale: number;
  freedom: number;
};

export type Fit = {
  coefficients: number[];
  /** The standard deviation of an observation around its mean. */
  scale: number;
  freedom: number;
  /** The next observation at `x`: Student's t with this location, scale and freedom. */
  predict(x: readonly number[]): { location: number; scale: number; freedom: number };
};

type Truncated = { mean: number; variance: number };

const ROUNDS = 500;
const SETTLED = 1e-8;

/**
 * Linear regression with a conjugate normal–inverse-gamma prior (Gelman et al., Bayesian Data Analysis, 3rd ed.,
 * 14.8 and 3.3; from memory), censored observations filled in by expectation and maximisation (Schmee & Hahn
 * 1979; Aitkin 1981). With no weight on the prior it gives the maximum likelihood fit.
 *
 * A censored observation counts in the precision and in the degrees of freedom by the information that it carries,
 * 1 − var(y | censored)/sigma² (Louis 1982), so a job sent out yesterday counts next to nothing.
 */
export function fitCensored(observations: readonly Observation[], prior: FitPrior): Fit {
  const weights = observations.reduce((sum, row) => sum + row.weight, 0);
  const inverse = jStat.inv(normalMatrix(observations, prior, () => 1));
  let coefficients = [...prior.mean];
  let scale = startingScale(observations, prior);
  let filled: Truncated[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    filled = observations.map((row) => truncate(dot(row.x, coefficients), scale, row.low, row.high));
    const next = multiply(inverse, rightSide(observations, prior, filled));
    const squares = sumOfSquares(observations, prior, filled, next);
    const nextScale = Math.sqrt(squares / (prior.freedom + weights));
    const moved = Math.max(
      Math.abs(nextScale - scale),
      ...next.map((b, k) => Math.abs(b - (coefficients[k] ?? 0))),
    );
    coefficients = next;
    scale = nextScale;
    if (moved < SETTLED) break;
  }
  const information = filled.map((row) => Math.max(0, 1 - row.variance / scale ** 2));
  const covariance = jStat.inv(normalMatrix(observations, prior, (k) => information[k] ?? 1));
  const known = observations.reduce((sum, row, k) => sum + row.weight * (information[k] ?? 1), 0);
  const freedom = prior.freedom + known;
  const predict = (x: readonly number[]) => ({
    location: dot(x, coefficients),
    scale: scale * Math.sqrt(1 + Math.max(0, dot(x, multiply(covariance, x)))),
    freedom,
  });
  return { coefficients, scale, freedom, predict };
}

/** Mean and variance of a normal variable known to lie between two bounds. */
export function truncate(mean: number, deviation: number, low: number, high: number): Truncated {
  if (low === high) return { mean: low, variance: 0 };
  const a = (low - mean) / deviation;
  const b = (high - mean) / deviation;
  // Past five deviations the normal's own figures run out of digits: the first terms of Mills' ratio stand in.
  if (a > 5) return { mean: mean + deviation * (a + 1 / a - 2 / a ** 3), variance: (deviation / a) ** 2 };
  const density = (z: number): number => (Number.isFinite(z) ? jStat.normal.pdf(z, 0, 1) : 0);
  const chance = between(a, b);
  const shift = (density(a) - density(b)) / chance;
  const edge = (Number.isFinite(a) ? a * density(a) : 0) - (Number.isFinite(b) ? b * density(b) : 0);
  return { mean: mean + deviation * shift, variance: deviation ** 2 * (1 + edge / chance - shift ** 2) };
}

/** The chance of a standard normal between two bounds, taken from the side with more digits. */
function between(a: number, b: number): number {
  const below = (z: number): number => jStat.normal.cdf(z, 0, 1);
  return a > 0 ? below(-a) - below(-b) : below(b) - below(a);
}

function startingScale(observations: readonly Observation[], prior: FitPrior): number {
  if (prior.freedom > 0) return prior.scale;
  const ends = observations.map((row) => (Number.isFinite(row.low) ? row.low : row.high));
  const middle = ends.reduce((sum, end) => sum + end, 0) / ends.length;
  return Math.sqrt(ends.reduce((sum, end) => sum + (end - middle) ** 2, 0) / ends.length) || prior.scale;
}

function normalMatrix(
  observations: readonly Observation[],
  prior: FitPrior,
  share: (row: number) => number,
): number[][] {
  return prior.mean.map((_, i) =>
    prior.mean.map((__, j) =>
      observations.reduce(
        (sum, row, k) => sum + row.weight * share(k) * (row.x[i] ?? 0) * (row.x[j] ?? 0),
        i === j ? (prior.precision[i] ?? 0) : 0,
      ),
    ),
  );
}

function rightSide(
  observations: readonly Observation[],
  prior: FitPrior,
  filled: readonly Truncated[],
): number[] {
  return prior.mean.map((mean, i) =>
    observations.reduce(
      (sum, row, k) => sum + row.weight * (row.x[i] ?? 0) * (filled[k]?.mean ?? 0),
      (prior.precision[i] ?? 0) * mean,
    ),
  );
}

function sumOfSquares(
  observations: readonly Observation[],
  prior: FitPrior,
  filled: readonly Truncated[],
  coefficients: readonly number[],
): number {
  let sum = prior.freedom * prior.scale ** 2;
  observations.forEach((row, k) => {
    const { mean, variance } = filled[k] ?? { mean: 0, variance: 0 };
    sum += row.weight * ((mean - dot(row.x, coefficients)) ** 2 + variance);
  });
  coefficients.forEach((b, i) => {
    sum += (prior.precision[i] ?? 0) * (b - (prior.mean[i] ?? 0)) ** 2;
  });
  return sum;
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, k) => sum + value * (b[k] ?? 0), 0);
}

function multiply(matrix: readonly number[][], vector: readonly number[]): number[] {
  return matrix.map((row) => dot(row, vector));
}
