import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addWorkingDays, type WorkingCalendar } from '../../../src/plan/calendar.js';
import { dayNumber } from '../../../src/plan/days.js';
import { forecast, type Forecast } from '../../../src/plan/forecast.js';
import { daysAt, lognormal } from '../../../src/plan/lead-times/lead-time.js';
import type { PlanActivity, PlanModel } from '../../../src/plan/model.js';
import { activity, everyDay, inventedJob, weekdays } from './invented-job.js';

// 2 March 2026 is a Monday.
function model(activities: PlanActivity[], changes: Partial<PlanModel> = {}): PlanModel {
  return {
    today: '2026-03-02',
    benchHoursADay: 4,
    calendars: { shop: weekdays, daily: everyDay },
    activities,
    links: [],
    ...changes,
  };
}

function reckoned(of: PlanModel, options = { seed: 1, runs: 1000 }): Forecast {
  const result = forecast(of, options);
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  return result;
}

const sure = (days: number) => lognormal(days, 0);
const bench = (id: string, hours: number, changes: Partial<PlanActivity> = {}) =>
  activity(id, { kind: 'bench', takes: sure(hours), ...changes });

describe('dates on working calendars', () => {
  it('bench hours at the shop’s pace, done at the end of a day', () => {
    expect(reckoned(model([bench('strip', 16)])).handOver).toMatchObject({ even: '2026-03-05', byHands: 0 });
    expect(reckoned(model([bench('strip', 20)])).handOver.even).toBe('2026-03-06');
    expect(reckoned(model([bench('strip', 21)])).handOver.even).toBe('2026-03-09');
  });

  it('a supplier’s days over their closed week, and the paint’s cure over a weekend', () => {
    const shut: WorkingCalendar = { ...weekdays, closed: [{ from: '2026-03-04', to: '2026-03-10' }] };
    const job = model(
      [
        activity('paint', { takes: sure(3), calendar: 'painter' }),
        bench('fit', 4),
        activity('chrome', { takes: sure(2) }),
      ],
      {
        calendars: { shop: weekdays, painter: shut },
        links: [
          { from: 'paint', to: 'fit', lag: { days: 5, counted: 'calendar' } },
          { from: 'chrome', to: 'fit' },
        ],
      },
    );
    const { activities, handOver } = reckoned(job);
    // Worked on 2, 3 and 11 March, so back on the 12th; cured on the 17th.
    expect(activities.get('paint')?.ends.even).toBe('2026-03-12');
    expect(activities.get('fit')?.begins).toBe('2026-03-17');
    expect(handOver).toMatchObject({ even: '2026-03-17', chain: ['paint', 'fit'] });
    expect(activities.get('paint')?.critical).toBe(1);
    expect(activities.get('chrome')).toMatchObject({ critical: 0, delayCost: 0 });
  });

  it('counts a lag in working days where it says so', () => {
    const links = [{ from: 'a', to: 'b', lag: { days: 5, counted: 'working' as const } }];
    const job = model([activity('a', { takes: sure(1) }), activity('b', { takes: sure(1) })], { links });
    expect(reckoned(job).handOver.even).toBe('2026-03-11');
  });

  it('starts from what is done, out and not to be begun before', () => {
    const job = model(
      [
        activity('painted', { started: '2026-02-02', finished: '2026-02-27' }),
        bench('fit', 4),
        activity('out', { takes: sure(15), started: '2026-02-16', gate: 'sublet-out' }),
        bench('test', 4, { notBefore: '2026-03-18', gate: 'road-tested' }),
        bench('past', 4, { notBefore: '2026-01-05' }),
      ],
      { links: [{ from: 'painted', to: 'fit', lag: { days: 7, counted: 'calendar' } }] },
    );
    const { activities, gates } = reckoned(job);
    expect(activities.get('painted')).toMatchObject({ begins: '2026-02-02', ends: { safe: '2026-02-27' } });
    expect(activities.get('fit')?.begins).toBe('2026-03-06');
    expect(activities.get('out')).toMatchObject({ begins: '2026-02-16', ends: { even: '2026-03-09' } });
    expect(activities.get('past')?.begins).toBe('2026-03-02');
    expect(gates.get('sublet-out')?.even).toBe('2026-03-09');
    expect(gates.get('road-tested')?.even).toBe('2026-03-18');
    expect(gates.has('stripped')).toBe(false);
    const passed = model([activity('a', { finished: '2026-02-27', gate: 'stripped' }), bench('b', 4)]);
    expect(reckoned(passed).gates.get('stripped')).toMatchObject({ safe: '2026-02-27', chain: [] });
  });

  it('lets what has begun go on, though something before it isn’t done', () => {
    const job = model(
      [activity('blast', { takes: sure(20) }), activity('paint', { takes: sure(15), started: '2026-02-23' })],
      { links: [{ from: 'blast', to: 'paint' }] },
    );
    const { activities, handOver } = reckoned(job);
    expect(activities.get('paint')?.ends.even).toBe('2026-03-16');
    expect(handOver).toMatchObject({ even: '2026-03-30', chain: ['blast'] });
  });

  it('holds a goal by the hours of all its bench work', () => {
    const six = ['a', 'b', 'c', 'd', 'e', 'f'].map((id) => bench(id, 4, { gate: 'reassembled' }));
    const { handOver, gates } = reckoned(model(six));
    expect(handOver).toMatchObject({ even: '2026-03-09', byHands: 1, chain: [] });
    expect(gates.get('reassembled')?.even).toBe('2026-03-09');
  });

  it('links of all four kinds', () => {
    const pair = (kind: 'finish-start' | 'start-start' | 'finish-finish' | 'start-finish') =>
      reckoned(
        model([activity('a', { takes: sure(6) }), activity('b', { takes: sure(2) })], {
          links: [{ from: 'a', to: 'b', kind, lag: { days: 1, counted: 'calendar' } }],
        }),
      ).activities.get('b');
    expect(pair('finish-start')).toMatchObject({ begins: '2026-03-11', ends: { even: '2026-03-13' } });
    expect(pair('start-start')).toMatchObject({ begins: '2026-03-03', ends: { even: '2026-03-05' } });
    expect(pair('finish-finish')?.ends.even).toBe('2026-03-11');
    expect(pair('start-finish')?.ends.even).toBe('2026-03-04');
  });

  it('agrees with the calendar’s own counting on any network of whole days', () => {
    const networks = fc.record({
      days: fc.array(fc.integer({ min: 0, max: 15 }), { minLength: 1, maxLength: 10 }),
      pairs: fc.array(fc.tuple(fc.nat(9), fc.nat(9)), { maxLength: 15 }),
      shut: fc.integer({ min: 0, max: 30 }),
    });
    fc.assert(
      fc.property(networks, ({ days, pairs, shut }) => {
        const from = addWorkingDays(everyDay, '2026-03-02', shut);
        const calendar = { ...weekdays, closed: [{ from, to: addWorkingDays(everyDay, from, 9) }] };
        const links = pairs
          .filter(([a, b]) => a < b && b < days.length)
          .map(([a, b]) => ({ from: `${a}`, to: `${b}` }));
        const ends: string[] = [];
        days.forEach((length, k) => {
          const before = links
            .filter((link) => link.to === `${k}`)
            .map((link) => ends[Number(link.from)] ?? '');
          const start = before.reduce((latest, end) => (end > latest ? end : latest), '2026-03-02');
          ends[k] = addWorkingDays(calendar, start, length);
        });
        const job = model(
          // A length of nothing has no logarithm; a minute's is nothing to the day.
          days.map((length, k) => activity(`${k}`, { takes: sure(length === 0 ? 0.001 : length) })),
          { calendars: { shop: calendar }, links },
        );
        const { activities } = reckoned(job, { seed: 3, runs: 1 });
        expect(days.map((_, k) => activities.get(`${k}`)?.ends.even)).toEqual(ends);
      }),
      { numRuns: 60 },
    );
  });
});

describe('chances', () => {
  it('gives the quantiles of a single line', () => {
    const takes = { location: Math.log(20), scale: 0.4, freedom: 7, from: 0, atLeast: 0 };
    const { handOver } = reckoned(model([activity('chrome', { takes, calendar: 'daily' })]), {
      seed: 4,
      runs: 20_000,
    });
    const after = (date: string) => dayNumber(date) - dayNumber('2026-03-02');
    for (const [date, p] of [
      [handOver.early, 0.2],
      [handOver.even, 0.5],
      [handOver.safe, 0.8],
    ] as const) {
      expect(Math.abs(after(date) - daysAt(takes, p))).toBeLessThan(1.2);
    }
  });

  it('conditions a line that is out on not being back', () => {
    const out = activity('chrome', { takes: lognormal(20, 0.4), calendar: 'daily', started: '2026-01-21' });
    const { handOver } = reckoned(model([out]), { seed: 4, runs: 20_000 });
    const expected = daysAt({ ...lognormal(20, 0.4), atLeast: 40 }, 0.5) - 40;
    expect(Math.abs(dayNumber(handOver.even) - dayNumber('2026-03-02') - expected)).toBeLessThan(1.2);
    expect(handOver.early >= '2026-03-02').toBe(true);
  });

  it('names what matters: criticality and the cost of a day', () => {
    const job = model(
      [
        activity('chrome', { takes: lognormal(30, 0.2), line: 'L1' }),
        activity('seat', { takes: lognormal(30, 0.2), line: 'L2' }),
        activity('cables', { takes: lognormal(5, 0.2), line: 'L3' }),
        bench('build', 8),
      ],
      { links: ['chrome', 'seat', 'cables'].map((from) => ({ from, to: 'build' })) },
    );
    const { activities } = reckoned(job, { seed: 2, runs: 10_000 });
    const [chrome, seat, cables, build] = ['chrome', 'seat', 'cables', 'build'].map((id) =>
      activities.get(id),
    );
    expect(Math.abs((chrome?.critical ?? 0) - 0.5)).toBeLessThan(0.05);
    expect((chrome?.critical ?? 0) + (seat?.critical ?? 0)).toBeCloseTo(1, 6);
    expect(cables).toMatchObject({ critical: 0, delayCost: 0 });
    expect(build?.critical).toBe(1);
    expect(build?.delayCost).toBeNull();
    // A working day late is 1.4 days on the calendar, in about half of the cases.
    expect(chrome?.delayCost).toBeGreaterThan(0.45);
    expect(chrome?.delayCost).toBeLessThan(1);
  });

  it('is the same for the same seed, and hardly another for another', () => {
    const job = inventedJob(60, 4, 3);
    expect(reckoned(job)).toEqual(reckoned(job));
    const [one, other] = [1, 2].map((seed) => reckoned(job, { seed, runs: 4000 }).handOver.safe);
    expect(Math.abs(dayNumber(one ?? '') - dayNumber(other ?? ''))).toBeLessThanOrEqual(3);
  });

  it('never comes sooner for a line that is later, whichever', () => {
    const job = inventedJob(40, 3, 8);
    const before = reckoned(job);
    for (const { id } of job.activities) {
      const activities = job.activities.map((one) => (one.id === id ? { ...one, later: 3 } : one));
      const after = reckoned({ ...job, activities });
      expect(after.handOver.safe >= before.handOver.safe).toBe(true);
      expect(after.handOver.even >= before.handOver.even).toBe(true);
    }
  });
});

describe('what can’t be reckoned', () => {
  const fault = (of: PlanModel) => {
    const result = forecast(of, { seed: 1, runs: 10 });
    return result.ok ? null : result.fault;
  };

  it('names the loop with its items', () => {
    const links = [
      { from: 'a', to: 'b' },
      { from: 'b', to: 'c' },
      { from: 'c', to: 'a' },
      { from: 'd', to: 'a' },
    ];
    const loop = [
      activity('a', { item: 4 }),
      activity('b', { item: 7 }),
      activity('c'),
      activity('d', { item: 9 }),
    ];
    const found = fault(model(loop, { links }));
    if (found?.kind !== 'cycle') throw new Error('no cycle found');
    expect(found.ids.slice().sort()).toEqual(['a', 'b', 'c']);
    expect(found.items.slice().sort()).toEqual([4, 7]);
  });

  it('names everything else that is wrong', () => {
    const one = activity('a');
    expect(fault(model([activity('a', { calendar: 'nobody' })]))).toEqual({
      kind: 'no-calendar',
      id: 'a',
      calendar: 'nobody',
    });
    expect(fault(model([bench('a', 3)], { benchHoursADay: 0 }))).toEqual({ kind: 'no-hands' });
    expect(fault(model([one], { benchHoursADay: 0 }))).toBeNull();
    expect(fault(model([one, one]))).toEqual({ kind: 'twice', id: 'a' });
    expect(fault(model([one], { links: [{ from: 'a', to: 'ghost' }] }))).toMatchObject({ id: 'ghost' });
    expect(fault(model([activity('a', { takes: sure(0) })]))).toEqual({ kind: 'bad-lead-time', id: 'a' });
    const never = { ...weekdays, closed: [{ from: '2000-01-01', to: '2099-12-31' }] };
    expect(fault(model([one], { calendars: { shop: never } }))).toMatchObject({ reason: 'it never opens' });
    const odd = { ...weekdays, zone: 'Nowhere' };
    expect(fault(model([one], { calendars: { shop: weekdays, odd } }))).toMatchObject({ calendar: 'odd' });
    const lag = { days: -3, counted: 'calendar' as const };
    expect(fault(model([one, activity('b')], { links: [{ from: 'a', to: 'b', lag }] }))).toMatchObject({
      kind: 'bad-lag',
    });
    expect(fault(model(Array.from({ length: 4001 }, (_, k) => activity(`${k}`))))).toMatchObject({
      kind: 'too-much',
    });
  });

  it('answers for an empty job, and says when a date is too far off to name', () => {
    expect(reckoned(model([])).handOver).toMatchObject({ beyondHorizon: false, chain: [] });
    expect(reckoned(model([activity('a', { takes: sure(9000) })])).handOver.beyondHorizon).toBe(true);
  });

  it('takes a job of five hundred items', () => {
    expect(reckoned(inventedJob(1500, 12, 5), { seed: 1, runs: 250 }).activities.size).toBe(1500);
  });
});
