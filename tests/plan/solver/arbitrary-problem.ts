import fc from 'fast-check';
import type { Activity, Link, Problem } from '../../../src/plan/solver/problem.js';

/** What random problems may have besides activities, links and steady capacities. */
export type Features = {
  most: number;
  lags?: boolean;
  releases?: boolean;
  calendars?: boolean;
  dues?: boolean;
};

/** Random problems that have a schedule: links go from lower to higher indexes. */
export function arbitraryProblem({ most, lags, releases, calendars, dues }: Features): fc.Arbitrary<Problem> {
  const resources = fc.array(fc.integer({ min: 2, max: 6 }), { minLength: 1, maxLength: 5 });
  return resources.chain((capacity) => {
    const maybe = (is: boolean | undefined, value: fc.Arbitrary<number>) => (is ? value : fc.constant(0));
    const activity: fc.Arbitrary<Activity> = fc.record({
      duration: fc.integer({ min: 0, max: 5 }),
      demands: fc.tuple(...capacity.map((units) => fc.integer({ min: 0, max: units }))),
      release: maybe(releases, fc.integer({ min: 0, max: 12 })),
      ...(dues ? { due: fc.integer({ min: 0, max: 20 }), weight: fc.integer({ min: 0, max: 4 }) } : {}),
    });
    const calendar = (units: number): fc.Arbitrary<number | number[]> =>
      calendars
        ? fc
            .array(fc.integer({ min: 0, max: units }), { minLength: 0, maxLength: 15 })
            .map((periods) => [...periods, units])
        : fc.constant(units);
    return fc.array(activity, { minLength: 1, maxLength: most }).chain((activities) => {
      const end = fc.nat(activities.length - 1);
      const link: fc.Arbitrary<Link[]> = fc
        .tuple(end, end, maybe(lags, fc.integer({ min: 0, max: 4 })))
        .map(([a, b, lag]) => (a === b ? [] : [{ from: Math.min(a, b), to: Math.max(a, b), lag }]));
      return fc.record({
        activities: fc.constant(activities),
        links: fc.array(link, { maxLength: 2 * activities.length }).map((found) => found.flat()),
        resources: fc.tuple(...capacity.map(calendar)).map((all) => all.map((each) => ({ capacity: each }))),
      });
    });
  });
}
