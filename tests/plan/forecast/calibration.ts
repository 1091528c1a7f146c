import { addWorkingDays } from '../../../src/plan/calendar.js';
import { dayNumber, type IsoDate } from '../../../src/plan/days.js';
import { forecast } from '../../../src/plan/forecast.js';
import { lognormal, type LeadTime } from '../../../src/plan/lead-times/lead-time.js';
import { learnLeadTimes } from '../../../src/plan/lead-times/learn.js';
import type { PlanModel } from '../../../src/plan/model.js';
import { randomFrom } from '../../../src/plan/random.js';
import { priorOf, simulateShop, type Trial, type World } from '../lead-times/simulated-trade.js';
import { activity, weekdays } from './invented-job.js';

export type JobCalibration = {
  jobs: number;
  /** Share of true hand-overs by the early, the even and the safe date: 0.2, 0.5 and 0.8 if all were known. */
  byEarly: number;
  byEven: number;
  bySafe: number;
  /** Mean pinball loss in days at 0.2, 0.5 and 0.8, of ours and of the two plain answers. */
  loss: { ours: number; promisedDates: number; suppliersMeans: number };
};

const TODAY = '2026-03-02';
/** Bench hours of each step, and the lines (by number) that it waits for; each step waits for the one before it. */
const STEPS = [
  { hours: 6, lines: [0, 4] },
  { hours: 8, lines: [2, 5] },
  { hours: 4, lines: [1, 3] },
];

/** Forecasts invented jobs of six lines and three steps, and scores the dates against the truth. */
export function calibrateJobs(
  jobs: number,
  pastJobs: number,
  world: World,
  firstSeed: number,
): JobCalibration {
  const rows = Array.from({ length: jobs }, (_, k) => scoreJob(firstSeed + k, pastJobs, world));
  const mean = (pick: (row: ReturnType<typeof scoreJob>) => number) =>
    rows.reduce((sum, row) => sum + pick(row), 0) / rows.length;
  return {
    jobs,
    byEarly: mean((row) => (row.truth <= row.early ? 1 : 0)),
    byEven: mean((row) => (row.truth <= row.even ? 1 : 0)),
    bySafe: mean((row) => (row.truth <= row.safe ? 1 : 0)),
    loss: {
      ours: mean((row) => loss(row.truth, [row.early, row.even, row.safe])),
      promisedDates: mean((row) => loss(row.truth, [row.promised, row.promised, row.promised])),
      suppliersMeans: mean((row) => loss(row.truth, [row.means, row.means, row.means])),
    },
  };
}

function scoreJob(seed: number, pastJobs: number, world: World) {
  const trials = simulateShop(seed, pastJobs, world);
  const learnt = learnLeadTimes(trials[0]?.past ?? [], priorOf);
  const leads = trials.map(({ supplier, process, promise }) => learnt.expect({ supplier, process, promise }));
  const result = forecast(jobOf(leads), { seed, runs: 2000 });
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  const random = randomFrom(seed + 1_000_000);
  const effort = STEPS.map(() => Math.exp(0.3 * (random.unit() + random.unit() + random.unit() - 1.5) * 2));
  const exactly = STEPS.map(() => 1);
  const day = (date: IsoDate): number => dayNumber(date);
  return {
    truth: day(
      handOver(
        trials.map((trial) => trial.days),
        effort,
      ),
    ),
    promised: day(
      handOver(
        trials.map((trial) => trial.promise?.due ?? meanOf(trial)),
        exactly,
      ),
    ),
    means: day(handOver(trials.map(meanOf), exactly)),
    early: day(result.handOver.early),
    even: day(result.handOver.even),
    safe: day(result.handOver.safe),
  };
}

function jobOf(leads: readonly LeadTime[]): PlanModel {
  return {
    today: TODAY,
    benchHoursADay: 4,
    calendars: { shop: weekdays },
    activities: [
      ...leads.map((takes, k) => activity(`line-${k}`, { takes })),
      ...STEPS.map(({ hours }, k) => activity(`step-${k}`, { kind: 'bench', takes: lognormal(hours, 0.3) })),
    ],
    links: STEPS.flatMap(({ lines }, k) => [
      ...lines.map((line) => ({ from: `line-${line}`, to: `step-${k}` })),
      ...(k > 0 ? [{ from: `step-${k - 1}`, to: `step-${k}` }] : []),
    ]),
  };
}

/** The same job laid out by hand, without the forecast's own reckoning: quarter days at the bench, whole days out. */
function handOver(days: readonly number[], effort: readonly number[]): IsoDate {
  let quarters = 0;
  STEPS.forEach(({ hours, lines }, k) => {
    for (const line of lines) quarters = Math.max(quarters, Math.round(days[line] ?? 0) * 4);
    quarters += Math.max(1, Math.round(hours * (effort[k] ?? 1)));
  });
  return addWorkingDays(weekdays, TODAY, Math.ceil(quarters / 4) - 1);
}

function meanOf({ past, supplier, process }: Trial): number {
  const own = past.filter((job) => job.supplier === supplier && job.back);
  if (own.length === 0) return priorOf(process).median;
  return own.reduce((sum, job) => sum + job.days, 0) / own.length;
}

function loss(truth: number, answers: readonly [number, number, number]): number {
  const levels = [0.2, 0.5, 0.8];
  const sum = levels.reduce((total, p, k) => {
    const miss = truth - (answers[k] ?? 0);
    return total + Math.max(p * miss, (p - 1) * miss);
  }, 0);
  return sum / levels.length;
}
