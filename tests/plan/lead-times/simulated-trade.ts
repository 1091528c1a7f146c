import type { PastJob, Prior, PromisedDate } from '../../../src/plan/lead-times/learn.js';
import { randomFrom, type Random } from '../../../src/plan/random.js';

/** An invented supplier, as it truly is: hidden from the learner. */
type TrueSupplier = {
  name: string;
  process: string;
  median: number;
  spread: number;
  /** Whether the promise knows how this very job goes, or is what they always say. */
  promises: 'knowing' | 'habit' | 'none';
  optimism: number;
};

/** How the truth departs from what the learner supposes. */
export type World = 'lognormal' | 'gamma' | 'forgotten';

export type Trial = {
  past: PastJob[];
  supplier: string;
  process: string;
  promise: PromisedDate | null;
  days: number;
};

export const PRIORS: Record<string, Prior> = {
  chrome: { median: 25, spread: 0.5 },
  paint: { median: 20, spread: 0.5 },
  rewind: { median: 12, spread: 0.5 },
};

export function priorOf(process: string): Prior {
  return PRIORS[process] ?? { median: 15, spread: 0.6 };
}

/**
 * One invented shop: its suppliers with `jobsEach` past jobs (some still out), and for each supplier the next job,
 * whose days are the truth to be foretold.
 */
export function simulateShop(seed: number, jobsEach: number, world: World): Trial[] {
  const random = randomFrom(seed);
  const suppliers = Object.entries(PRIORS).flatMap(([process, prior]) => {
    const here = Math.exp(0.25 * normal(random));
    return [1, 2].map((k) => trueSupplier(random, `${process}-${k}`, process, prior.median * here));
  });
  const past = suppliers.flatMap((supplier) => [
    ...Array.from({ length: jobsEach }, () => pastJob(random, supplier, world, true)),
    ...(random.unit() < 0.5 ? [pastJob(random, supplier, world, false)] : []),
  ]);
  return suppliers.map((supplier) => {
    const days = draw(random, supplier, world);
    return {
      past,
      supplier: supplier.name,
      process: supplier.process,
      promise: promise(random, supplier, days),
      days,
    };
  });
}

function trueSupplier(random: Random, name: string, process: string, usual: number): TrueSupplier {
  const kind = random.unit();
  return {
    name,
    process,
    median: usual * Math.exp(0.3 * normal(random)),
    spread: 0.15 + 0.4 * random.unit(),
    promises: kind < 0.4 ? 'knowing' : kind < 0.75 ? 'habit' : 'none',
    optimism: 0.15 * random.unit() + 0.05,
  };
}

function pastJob(random: Random, supplier: TrueSupplier, world: World, back: boolean): PastJob {
  const days = draw(random, supplier, world);
  const said = promise(random, supplier, days);
  return {
    supplier: supplier.name,
    process: supplier.process,
    days: back ? days : Math.floor(days * random.unit()),
    back,
    promises: said === null ? [] : [said],
  };
}

function draw(random: Random, { median, spread }: TrueSupplier, world: World): number {
  let days = median * Math.exp(spread * normal(random));
  if (world === 'gamma') days = median * gamma(random, 1 / spread ** 2) * spread ** 2;
  if (world === 'forgotten' && random.unit() < 0.07) days *= 2;
  return Math.max(1, Math.round(days));
}

function promise(random: Random, supplier: TrueSupplier, days: number): PromisedDate | null {
  if (supplier.promises === 'none') return null;
  const about =
    supplier.promises === 'knowing'
      ? days * Math.exp(0.2 * normal(random) - supplier.optimism)
      : supplier.median * Math.exp(0.1 * normal(random) - supplier.optimism);
  return { given: 0, due: Math.max(1, Math.round(about)) };
}

/** Box & Muller 1958. */
function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random.unit())) * Math.cos(2 * Math.PI * random.unit());
}

/** Marsaglia & Tsang 2000, for a shape of one or more. */
function gamma(random: Random, shape: number): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normal(random);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - random.unit()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}
