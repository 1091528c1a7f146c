import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { randomFrom } from '../../../src/plan/random.js';
import type { Problem } from '../../../src/plan/solver/problem.js';
import { solve, type SolveOptions, type Solution } from '../../../src/plan/solver/solve.js';
import { brokenRules, lengthOf } from '../../support/feasible.js';
import { arbitraryProblem } from './arbitrary-problem.js';
import { leastValue } from './brute-force.js';

const FULL = { lags: true, releases: true, calendars: true, dues: true };

function solved(problem: Problem, options: Partial<SolveOptions> = {}): Solution {
  const result = solve(problem, { schedules: 200, seed: 1, ...options });
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  return result;
}

/** An activity that takes all of its one resource. */
const job = (duration: number, more: object = {}) => ({ duration, demands: [1], ...more });
const oneHand = [{ capacity: 1 }];

describe('every schedule is feasible', () => {
  const holds = (problem: Problem, options: Partial<SolveOptions>) => {
    const found = solved(problem, options);
    expect(brokenRules(problem, found.start)).toEqual([]);
    expect(found.makespan).toBe(lengthOf(problem, found.start));
    expect(found.schedules).toBeLessThanOrEqual(options.schedules ?? 200);
  };
  test('of steady problems', () => {
    fc.assert(fc.property(arbitraryProblem({ most: 25 }), fc.nat(), (p, seed) => holds(p, { seed })));
  });
  test('with lags, release times and calendars', () => {
    fc.assert(
      fc.property(arbitraryProblem({ most: 25, ...FULL }), fc.nat(), (p, seed) => holds(p, { seed })),
    );
  });
  test('by due dates and near a baseline', () => {
    const starts = fc.array(fc.option(fc.integer({ min: 0, max: 400 })), { maxLength: 25 });
    const weights = fc.record({ makespan: fc.nat(2), tardiness: fc.nat(3), deviation: fc.nat(2) });
    fc.assert(
      fc.property(arbitraryProblem({ most: 25, ...FULL }), starts, weights, (p, baseline, objective) =>
        holds(p, { objective, baseline }),
      ),
    );
  });
  test('with resources that fill several words', () => {
    const resources = [7, 900, 31, 2_000_000, 12].map((capacity) => ({ capacity }));
    const demands = [3, 450, 16, 1_000_001, 5];
    const activities = Array.from({ length: 12 }, (_, a) => ({ duration: 1 + (a % 4), demands }));
    // Of the fourth resource no two fit side by side.
    const found = solved({ activities, links: [], resources });
    expect(found.makespan).toBe(30);
    expect(brokenRules({ activities, links: [], resources }, found.start)).toEqual([]);
  });
});

describe('small problems are solved to the optimum found by trying everything', () => {
  const agrees = (problem: Problem) => {
    const found = solved(problem, { schedules: 400 });
    expect(leastValue(problem, found.makespan, (start) => lengthOf(problem, start))).toBe(found.makespan);
  };
  test('steady', () => {
    fc.assert(fc.property(arbitraryProblem({ most: 5 }), agrees), { numRuns: 150 });
  });
  test('with lags, release times and calendars', () => {
    fc.assert(fc.property(arbitraryProblem({ most: 5, ...FULL }), agrees), { numRuns: 150 });
  });
  test('by weighted tardiness', () => {
    const late = (problem: Problem, start: readonly number[]): number =>
      problem.activities.reduce((sum, { duration, due = Infinity, weight = 1 }, a) => {
        const over = (start[a] as number) + duration - due;
        return over > 0 ? sum + over * weight : sum;
      }, 0);
    fc.assert(
      fc.property(arbitraryProblem({ most: 4, ...FULL }), (problem) => {
        const found = solved(problem, { schedules: 400, objective: { makespan: 0, tardiness: 1 } });
        expect(found.objective).toBe(late(problem, found.start));
        const least = leastValue(problem, found.makespan + 3, (start) => late(problem, start));
        expect(found.objective).toBeLessThanOrEqual(least);
      }),
      { numRuns: 100 },
    );
  });
});

describe('plain cases', () => {
  test('nothing to do takes no time', () => {
    expect(solved({ activities: [], links: [], resources: [] })).toEqual({
      ok: true,
      start: [],
      makespan: 0,
      objective: 0,
      schedules: 0,
    });
  });
  test('activities of no duration happen at their place, whatever they ask for', () => {
    const problem: Problem = {
      activities: [job(0), job(3), job(0, { demands: [9] })],
      links: [
        { from: 0, to: 1 },
        { from: 1, to: 2, lag: 2 },
      ],
      resources: oneHand,
    };
    expect(solved(problem).start).toEqual([0, 0, 5]);
  });
  test('a lag, a release time and a closed week are waited for', () => {
    const open = [1, 1, 1, 0, 0, 0, 0, 1];
    const problem: Problem = {
      activities: [job(2, { release: 1 }), job(1), job(4)],
      links: [
        { from: 0, to: 1, lag: 1 },
        { from: 1, to: 2 },
      ],
      resources: [{ capacity: open }],
    };
    expect(solved(problem).start).toEqual([1, 7, 8]);
  });
  test('what is due first is done first, by weight', () => {
    const activities = [job(4, { due: 4 }), job(2, { due: 2, weight: 3 })];
    const problem: Problem = { activities, links: [], resources: oneHand };
    const found = solved(problem, { objective: { tardiness: 1 } });
    expect(found.start).toEqual([2, 0]);
    expect(found.objective).toBe(6 + 2);
  });
  test('the same seed gives the same schedule, and another seed is another search', () => {
    const problem = invented(60, 5);
    const starts = [3, 3, 4].map((seed) => solved(problem, { seed, schedules: 300 }).start.join());
    expect(starts[0]).toBe(starts[1]);
    expect(starts[0]).not.toBe(starts[2]);
  });
  test('a search told to stop ends with a schedule', () => {
    let asked = 0;
    const found = solved(invented(60, 5), { schedules: 1_000_000, stop: () => (asked += 1) >= 25 });
    expect(found.schedules).toBe(25);
    expect(brokenRules(invented(60, 5), found.start)).toEqual([]);
    expect(solved(invented(60, 5), { stop: () => true }).schedules).toBe(1);
  });
  test('a larger budget finds a shorter schedule', () => {
    const problem = invented(80, 3);
    const [few, many] = [10, 2000].map((schedules) => solved(problem, { schedules }).makespan);
    expect(many).toBeLessThan(few as number);
  });
  test('500 activities are scheduled within a few schedules each way', () => {
    const problem = invented(500, 6);
    const found = solved(problem, { schedules: 200 });
    expect(found.schedules).toBe(200);
    expect(brokenRules(problem, found.start)).toEqual([]);
  });
});

describe('near a baseline', () => {
  const problem = invented(60, 5);
  const objective = { makespan: 1, deviation: 10 };
  const before = solved(problem, { schedules: 500 });
  test('one that still works is kept as it is', () => {
    const found = solved(problem, { objective, baseline: before.start });
    expect(found.start).toEqual(before.start);
  });
  test('one with idle time in it is kept too', () => {
    const baseline = before.start.map((time) => time + 7);
    const found = solved(problem, { objective: { makespan: 0, deviation: 1 }, baseline });
    expect(found.start).toEqual(baseline);
    expect(found.objective).toBe(0);
  });
  test('an activity that takes longer moves fewer others than planning afresh', () => {
    const activities = problem.activities.map((activity, a) =>
      a === 20 ? { ...activity, duration: activity.duration + 1 } : activity,
    );
    const changed = { ...problem, activities };
    const moved = (start: readonly number[]) => start.filter((time, a) => time !== before.start[a]).length;
    const near = solved(changed, { objective, baseline: before.start, schedules: 500 });
    const afresh = solved(changed, { schedules: 500, seed: 2 });
    expect(moved(near.start)).toBeLessThan(moved(afresh.start) / 2);
  });
});

describe('what can not be scheduled is refused', () => {
  const refused = (problem: Problem) => {
    const result = solve(problem, { schedules: 10, seed: 1 });
    return result.ok ? null : result.fault;
  };
  test('a cycle, by its activities', () => {
    const links = [
      { from: 1, to: 2 },
      { from: 2, to: 1 },
    ];
    const fault = refused({ activities: [job(1), job(1), job(1)], links, resources: oneHand });
    expect(fault?.kind === 'cycle' && [...fault.activities].sort()).toEqual([1, 2]);
  });
  test('more than there ever will be', () => {
    const resources = [{ capacity: [2, 2, 1] }];
    expect(refused({ activities: [job(1, { demands: [2] })], links: [], resources })).toEqual({
      kind: 'never-enough',
      activity: 0,
      resource: 0,
    });
  });
  test.each([
    [{ activities: [job(-1)], links: [], resources: oneHand }, 'bad-number'],
    [{ activities: [job(1.5)], links: [], resources: oneHand }, 'bad-number'],
    [{ activities: [job(1, { weight: Number.NaN })], links: [], resources: oneHand }, 'bad-number'],
    [{ activities: [job(1)], links: [], resources: [{ capacity: [] }] }, 'bad-number'],
    [{ activities: [job(1)], links: [{ from: 0, to: 1 }], resources: oneHand }, 'unknown-activity'],
    [{ activities: [job(1_000_000)], links: [], resources: oneHand }, 'too-large'],
  ] satisfies [Problem, string][])('bad problem %#', (problem, kind) => {
    expect(refused(problem)?.kind).toBe(kind);
  });
});

/** An invented problem, the same each time: random demands of all resources, few links. */
function invented(size: number, resources: number): Problem {
  const random = randomFrom(size + resources);
  const below = (count: number): number => Math.floor(random.unit() * count);
  const activities = Array.from({ length: size }, () => ({
    duration: 1 + below(9),
    demands: Array.from({ length: resources }, () => below(8)),
  }));
  const links = activities.flatMap((_, a) =>
    [a + 1 + below(12), a + 1 + below(12)].filter((to) => to < size).map((to) => ({ from: a, to })),
  );
  return { activities, links, resources: Array.from({ length: resources }, () => ({ capacity: 14 })) };
}
