import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { criticalPath, type CriticalPath, type LinkKind, type NetworkLink } from '../../src/plan/network.js';
import { reference } from '../support/reference.js';

type Table = Record<string, { ES: number; EF: number; LS?: number; LF?: number; freeFloat?: number }>;
type Examples = {
  examples: {
    id: string;
    tolerance?: number;
    activities: { id: string; duration: number; variance?: number; predecessors: string[] }[];
    expected: {
      duration: number;
      variance?: number;
      varianceTolerance?: number;
      table?: Table;
      criticalActivities: string[];
      slack?: Record<string, number>;
    };
  }[];
  relationTypeCases: {
    cases: {
      name: string;
      activities: { id: string; duration: number }[];
      relations: { from: string; to: string; type: 'FS' | 'SS' | 'FF' | 'SF'; lag: number }[];
      expected: { duration: number; table: Table };
      agreesWithStartsClampedAtZero: boolean;
    }[];
  };
};

// Sources: the `source` of each example in the file, and tests/references/README.md.
const { examples, relationTypeCases } = reference<Examples>('cpm-examples.json');

const KINDS: Record<'FS' | 'SS' | 'FF' | 'SF', LinkKind> = {
  FS: 'finish-start',
  SS: 'start-start',
  FF: 'finish-finish',
  SF: 'start-finish',
};

function solved(...args: Parameters<typeof criticalPath>): CriticalPath {
  const result = criticalPath(...args);
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  return result;
}

function expectTable(path: CriticalPath, table: Table, tolerance = 1e-9): void {
  for (const [id, row] of Object.entries(table)) {
    const dates = path.dates.get(id);
    const pairs: [number | undefined, number | undefined][] = [
      [dates?.earlyStart, row.ES],
      [dates?.earlyFinish, row.EF],
      [dates?.lateStart, row.LS],
      [dates?.lateFinish, row.LF],
      [dates?.freeSlack, row.freeFloat],
    ];
    for (const [ours, published] of pairs) {
      if (published !== undefined)
        expect(Math.abs((ours ?? NaN) - published), `${id}`).toBeLessThanOrEqual(tolerance);
    }
  }
}

describe('published critical-path examples', () => {
  it.each(examples)('$id', ({ activities, expected, tolerance }) => {
    const links = activities.flatMap(({ id, predecessors }) =>
      predecessors.map((from): NetworkLink => ({ from, to: id })),
    );
    const path = solved(activities, links);
    expect(path.duration).toBeCloseTo(expected.duration, 9);
    expect(path.critical.slice().sort()).toEqual(expected.criticalActivities.slice().sort());
    if (expected.table) expectTable(path, expected.table, tolerance);
    for (const [id, slack] of Object.entries(expected.slack ?? {})) {
      expect(path.dates.get(id)?.totalSlack).toBeCloseTo(slack, 9);
    }
    if (expected.variance !== undefined) {
      const along = path.critical.map(
        (id) => activities.find((activity) => activity.id === id)?.variance ?? 0,
      );
      const variance = along.reduce((sum, value) => sum + value, 0);
      expect(Math.abs(variance - expected.variance)).toBeLessThanOrEqual(expected.varianceTolerance ?? 1e-6);
    }
  });

  const cases = relationTypeCases.cases.map((row) => ({
    ...row,
    links: row.relations.map(({ from, to, type, lag }): NetworkLink => ({
      from,
      to,
      lag,
      kind: KINDS[type],
    })),
  }));

  it.each(cases)('$name', ({ activities, links, expected }) => {
    const path = solved(activities, links, { bounded: false });
    expect(path.duration).toBe(expected.duration);
    expectTable(path, expected.table);
  });

  it.each(cases.filter((row) => row.agreesWithStartsClampedAtZero))('$name, bounded', (row) => {
    const path = solved(row.activities, row.links);
    expect(path.duration).toBe(row.expected.duration);
    for (const [id, { ES, EF }] of Object.entries(row.expected.table)) {
      expect(path.dates.get(id)).toMatchObject({ earlyStart: ES, earlyFinish: EF });
    }
  });
});

describe('chains, slack and faults', () => {
  const activities = [
    { id: 'blast', duration: 3 },
    { id: 'paint', duration: 10 },
    { id: 'rebore', duration: 6 },
    { id: 'build', duration: 2 },
  ];
  const links: NetworkLink[] = [
    { from: 'blast', to: 'paint' },
    { from: 'paint', to: 'build', lag: 5 },
    { from: 'rebore', to: 'build' },
  ];

  it('names the chain that drives an activity, over a lag', () => {
    const path = solved(activities, links);
    expect(path.drivenBy('build')).toEqual(['blast', 'paint', 'build']);
    expect(path.duration).toBe(20);
    expect(path.dates.get('rebore')).toMatchObject({ totalSlack: 12, freeSlack: 12 });
  });

  it('names a cycle with all that is in it, in order', () => {
    const turned = [...links, { from: 'build', to: 'blast' }];
    const result = criticalPath(activities, turned);
    expect(result.ok).toBe(false);
    if (result.ok || result.fault.kind !== 'cycle') throw new Error('no cycle found');
    const { ids } = result.fault;
    expect(ids.slice().sort()).toEqual(['blast', 'build', 'paint']);
    ids.forEach((id, k) => {
      const next = ids[(k + 1) % ids.length];
      expect(turned.some((link) => link.from === id && link.to === next)).toBe(true);
    });
  });

  it('names what is unknown, doubled or shorter than nothing', () => {
    const fault = (...args: Parameters<typeof criticalPath>) => {
      const result = criticalPath(...args);
      return result.ok ? null : result.fault;
    };
    expect(fault(activities, [{ from: 'blast', to: 'ghost' }])).toEqual({
      kind: 'unknown-activity',
      id: 'ghost',
    });
    expect(fault([...activities, { id: 'paint', duration: 1 }], [])).toEqual({ kind: 'twice', id: 'paint' });
    expect(fault([{ id: 'odd', duration: -1 }], [])).toEqual({ kind: 'bad-duration', id: 'odd' });
    expect(fault([{ id: 'itself', duration: 1 }], [{ from: 'itself', to: 'itself' }])).toEqual({
      kind: 'cycle',
      ids: ['itself'],
    });
    expect(solved([], []).duration).toBe(0);
  });

  it('keeps every link and moves the end by what slack doesn’t take up', () => {
    const networks = fc
      .array(fc.integer({ min: 0, max: 9 }), { minLength: 2, maxLength: 12 })
      .chain((durations) =>
        fc.record({
          durations: fc.constant(durations),
          pairs: fc.array(
            fc.tuple(
              fc.nat(durations.length - 1),
              fc.nat(durations.length - 1),
              fc.integer({ min: 0, max: 4 }),
            ),
            { maxLength: 25 },
          ),
          later: fc.nat(durations.length - 1),
          by: fc.integer({ min: 1, max: 8 }),
        }),
      );
    fc.assert(
      fc.property(networks, ({ durations, pairs, later, by }) => {
        const list = durations.map((duration, k) => ({ id: `${k}`, duration }));
        const forward = pairs
          .filter(([a, b]) => a < b)
          .map(([a, b, lag]) => ({ from: `${a}`, to: `${b}`, lag }));
        const path = solved(list, forward);
        for (const link of forward) {
          const before = path.dates.get(link.from);
          expect(path.dates.get(link.to)?.earlyStart).toBeGreaterThanOrEqual(
            (before?.earlyFinish ?? 0) + link.lag,
          );
        }
        const slack = path.dates.get(`${later}`)?.totalSlack ?? 0;
        const slower = list.map((row, k) => (k === later ? { ...row, duration: row.duration + by } : row));
        expect(solved(slower, forward).duration).toBe(path.duration + Math.max(0, by - slack));
      }),
    );
  });
});
