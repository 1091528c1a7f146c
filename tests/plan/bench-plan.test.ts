import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchTask, PlannedTask } from '../../src/plan/bench-plan.js';
import { benchPlan, schedulesFor, startsOf } from '../../src/plan/bench-plan.js';
import { isWorkingDay, workingDaysBetween } from '../../src/plan/calendar.js';
import type { Invented } from './bench-shops.js';
import { CALENDAR, inventShop, MONDAY, oneDayLater, shareKept } from './bench-shops.js';

const HALF_HOURS_A_DAY = 10;
const seeds = fc.integer({ min: 1, max: 100_000 });

function planned({ tasks, shop }: Invented): PlannedTask[] {
  const plan = benchPlan(tasks, shop);
  if (!plan.ok) throw new Error(plan.why);
  return plan.tasks;
}

/** Half hours of bench time from the first Monday on: when a task begins and has ended. */
function spansOf(parts: readonly PlannedTask[]): Map<string, { from: number; to: number }> {
  const spans = new Map<string, { from: number; to: number }>();
  for (const { id, day, halfHour, hours } of parts) {
    const from = workingDaysBetween(CALENDAR, MONDAY, day) * HALF_HOURS_A_DAY + halfHour;
    const before = spans.get(id);
    spans.set(id, { from: before?.from ?? from, to: from + Math.round(hours * 2) });
  }
  return spans;
}

const spanOf = (spans: ReturnType<typeof spansOf>, id: string): { from: number; to: number } => {
  const span = spans.get(id);
  if (!span) throw new Error(`${id} is not in the plan`);
  return span;
};

/** How many of some tasks are under way at once, at most. */
function mostAtOnce(tasks: readonly BenchTask[], spans: ReturnType<typeof spansOf>): number {
  const all = tasks.map(({ id }) => spanOf(spans, id));
  return Math.max(
    0,
    ...all.map(({ from }) => all.filter((each) => each.from <= from && from < each.to).length),
  );
}

/** An instant of bench time that sorts as text: the day, and the half hour in two digits. */
const at = (day: string, halfHour: number): string => `${day} ${String(halfHour).padStart(2, '0')}`;

/** What a plan costs by the weights of `benchPlan`, staying near the one before apart; reckoned from its parts alone. */
function costOf(invented: Invented): number {
  const spans = spansOf(planned(invented));
  const length = Math.max(...[...spans.values()].map(({ to }) => to));
  const waitedFor = new Set(invented.tasks.flatMap(({ after }) => after.map(({ id }) => id)));
  const late = invented.tasks
    .filter(({ id, wantedBy }) => wantedBy !== null && !waitedFor.has(id))
    .map(({ id, wantedBy, weight }) => {
      const due = (workingDaysBetween(CALENDAR, MONDAY, wantedBy ?? MONDAY) + 1) * HALF_HOURS_A_DAY;
      return weight * Math.max(0, spanOf(spans, id).to - due);
    });
  return length + 20 * late.reduce((sum, each) => sum + each, 0);
}

/** The same shop with the last job's wanted-by day given to the first, and so on. */
function turnedRound({ tasks, shop }: Invented): Invented {
  const days = new Map(tasks.map(({ job, wantedBy }) => [job, wantedBy]));
  const jobs = [...days.keys()];
  const other = (job: string): string => jobs[jobs.length - 1 - jobs.indexOf(job)] ?? job;
  return { shop, tasks: tasks.map((task) => ({ ...task, wantedBy: days.get(other(task.job)) ?? null })) };
}

describe('the plan of the bench', () => {
  it('does every task once, in working hours, its hours split over the days it takes', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const invented = inventShop(seed);
        const parts = planned(invented);
        for (const { id, hours } of invented.tasks) {
          const its = parts.filter((part) => part.id === id);
          expect(its.reduce((sum, part) => sum + part.hours, 0)).toBeCloseTo(hours, 6);
          expect(new Set(its.map(({ mechanic }) => mechanic)).size).toBe(1);
        }
        for (const { day, halfHour, hours } of parts) {
          expect(isWorkingDay(CALENDAR, day)).toBe(true);
          expect(halfHour + hours * 2).toBeLessThanOrEqual(HALF_HOURS_A_DAY + 1e-6);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('gives no mechanic two things at once, and no station either', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { tasks, shop } = inventShop(seed);
        const parts = planned({ tasks, shop });
        const spans = spansOf(parts);
        const mechanicOf = new Map(parts.map(({ id, mechanic }) => [id, mechanic]));
        for (const { id: mechanic } of shop.mechanics) {
          const theirs = tasks.filter(({ id }) => mechanicOf.get(id) === mechanic);
          expect(mostAtOnce(theirs, spans)).toBeLessThanOrEqual(1);
        }
        for (const [station, many] of Object.entries(shop.stations)) {
          const there = tasks.filter(({ stations }) => stations.includes(station));
          expect(mostAtOnce(there, spans)).toBeLessThanOrEqual(many);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('begins nothing before what it waits for, at the bench or from outside', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const invented = inventShop(seed);
        const spans = spansOf(planned(invented));
        for (const { id, after, notBefore } of invented.tasks) {
          const { from } = spanOf(spans, id);
          for (const before of after) {
            expect(from).toBeGreaterThanOrEqual(
              spanOf(spans, before.id).to + before.lagDays * HALF_HOURS_A_DAY,
            );
          }
          if (notBefore !== null)
            expect(from).toBeGreaterThanOrEqual(
              workingDaysBetween(CALENDAR, MONDAY, notBefore) * HALF_HOURS_A_DAY,
            );
        }
      }),
      { numRuns: 60 },
    );
  });

  it('keeps the day of nine in ten of the coming week’s tasks when one thing moves by a day, where a fresh plan does not', () => {
    const shares = Array.from({ length: 40 }, (_, index) => {
      const first = inventShop(index + 1);
      const before = planned(first);
      const changed = oneDayLater(first, index + 1);
      const kept = { ...changed, shop: { ...changed.shop, before: startsOf(before) } };
      return { held: shareKept(before, planned(kept)), fresh: shareKept(before, planned(changed)) };
    });
    const mean = (of: 'held' | 'fresh'): number =>
      shares.reduce((sum, share) => sum + share[of], 0) / shares.length;
    expect(mean('held')).toBeGreaterThanOrEqual(0.9);
    expect(mean('fresh')).toBeLessThan(mean('held'));
  });

  it('plans nothing for a mechanic on their days off, and keeps precedences, hands and stations all the same', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { tasks, shop } = inventShop(seed);
        const mechanics = shop.mechanics.map(({ id }, place) => ({
          id,
          calendar: {
            ...CALENDAR,
            days: place === 0 ? [1, 2, 4, 5] : CALENDAR.days,
            closed: [...CALENDAR.closed, { from: `2026-03-0${3 + place}`, to: `2026-03-0${5 + place}` }],
          },
        }));
        const parts = planned({ tasks, shop: { ...shop, mechanics } });
        for (const { mechanic, day } of parts) {
          const calendar = mechanics.find(({ id }) => id === mechanic)?.calendar ?? CALENDAR;
          expect(isWorkingDay(calendar, day)).toBe(true);
        }
        const placed = (id: string): { from: string; to: string }[] =>
          parts
            .filter((part) => part.id === id)
            .map(({ day, halfHour, hours }) => ({
              from: at(day, halfHour),
              to: at(day, halfHour + Math.round(hours * 2)),
            }));
        for (const { id, hours, after } of tasks) {
          const its = parts.filter((part) => part.id === id);
          expect(its.reduce((sum, part) => sum + part.hours, 0)).toBeCloseTo(hours, 6);
          for (const before of after)
            expect((placed(id)[0]?.from ?? '') >= (placed(before.id).at(-1)?.to ?? 'none')).toBe(true);
        }
        const isOverlapping = (sharers: readonly string[]): boolean =>
          sharers.some((one) =>
            sharers.some(
              (other) =>
                other !== one &&
                placed(one).some((a) => placed(other).some((b) => a.from < b.to && b.from < a.to)),
            ),
          );
        for (const { id: mechanic } of mechanics) {
          const theirs = parts.filter((part) => part.mechanic === mechanic).map(({ id }) => id);
          expect(isOverlapping([...new Set(theirs)])).toBe(false);
        }
        for (const station of Object.keys(shop.stations)) {
          const there = tasks.filter(({ stations }) => stations.includes(station)).map(({ id }) => id);
          expect(isOverlapping(there)).toBe(false);
        }
      }),
      { numRuns: 40 },
    );
  });

  it.each([
    ['one thing moves by a day', oneDayLater, 1.05],
    // Measured over 100 shops: 1.10 in all. Staying near the plan before is paid for where all else has changed.
    ['all jobs’ wanted-by days change places', turnedRound, 1.25],
  ] as const)('costs little more in lateness and length than a fresh plan where %s', (_, change, atMost) => {
    const costs = Array.from({ length: 40 }, (_each, index) => {
      const first = inventShop(index + 1);
      const changed = change(first, index + 1);
      const kept = { ...changed, shop: { ...changed.shop, before: startsOf(planned(first)) } };
      return { held: costOf(kept), fresh: costOf(changed) };
    });
    const sum = (of: 'held' | 'fresh'): number => costs.reduce((total, each) => total + each[of], 0);
    expect(sum('held') / sum('fresh')).toBeLessThanOrEqual(atMost);
  });

  it('leaves nearly every task of an unchanged shop with the mechanic who had it, in whatever order they are named', () => {
    const shops = Array.from({ length: 30 }, (_, index) => inventShop(index + 1));
    const shares = shops
      .filter(({ shop }) => shop.mechanics.length > 1)
      .map(({ tasks, shop }) => {
        const before = startsOf(planned({ tasks, shop }));
        const mechanics = shop.mechanics.toReversed();
        const again = startsOf(planned({ tasks, shop: { ...shop, mechanics, before } }));
        const kept = tasks.filter(({ id }) => again.get(id)?.mechanic === before.get(id)?.mechanic);
        return kept.length / tasks.length;
      });
    expect(shares.length).toBeGreaterThan(5);
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeGreaterThanOrEqual(0.9);
  });

  it('carries on first with what was to be begun yesterday and is not done', () => {
    const { shop } = inventShop(1);
    const tasks = ['a', 'b', 'c'].map((id): BenchTask => ({
      ...{ id, job: id, hours: 5, after: [], notBefore: null, weight: 1, stations: [], wantedBy: null },
    }));
    const [one] = shop.mechanics;
    if (!one) throw new Error('a shop has a mechanic');
    for (const { id } of tasks) {
      const before = new Map([[id, { day: '2026-02-27', halfHour: 0, mechanic: one.id }]]);
      const parts = planned({ tasks, shop: { ...shop, mechanics: [one], before } });
      expect(parts.find((part) => part.day === MONDAY)?.id).toBe(id);
    }
  });

  it.each(['a', 'b'])('does first what is wanted first: %s', (wanted) => {
    const shop = { ...inventShop(1).shop, mechanics: [{ id: 'Ada', calendar: CALENDAR }], before: new Map() };
    const tasks = ['a', 'b'].map((id): BenchTask => ({
      ...{ id, job: id, hours: 5, after: [], notBefore: null, weight: 1, stations: [] },
      wantedBy: id === wanted ? MONDAY : null,
    }));
    expect(planned({ tasks, shop }).find(({ id }) => id === wanted)?.day).toBe(MONDAY);
  });

  it('plans a hundred jobs of ninety tasks with a bounded amount of work', () => {
    const tasks = Array.from({ length: 9_000 }, (_, n): BenchTask => ({
      ...{ id: `t${n}`, job: `${Math.floor(n / 90)}`, hours: 1, notBefore: null, wantedBy: null, weight: 1 },
      stations: [],
      after: n % 90 === 0 ? [] : [{ id: `t${n - 1}`, lagDays: 0 }],
    }));
    expect(schedulesFor(tasks.length) * tasks.length).toBeLessThanOrEqual(40_000);
    const parts = planned({ tasks, shop: inventShop(3).shop });
    expect(parts.reduce((sum, { hours }) => sum + hours, 0)).toBeCloseTo(9_000, 3);
  });

  it('says so where nobody is there to do it', () => {
    const { tasks, shop } = inventShop(1);
    expect(benchPlan(tasks, { ...shop, mechanics: [] })).toEqual({ ok: false, why: 'no-mechanics' });
  });
});
