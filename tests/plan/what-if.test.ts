import { describe, expect, it } from 'vitest';
import { lognormal } from '../../src/plan/lead-times/lead-time.js';
import type { PlanModel } from '../../src/plan/model.js';
import { whatIf, type Change, type WhatIf } from '../../src/plan/what-if.js';
import { activity, weekdays } from './forecast/invented-job.js';

const model: PlanModel = {
  today: '2026-03-02',
  benchHoursADay: 4,
  calendars: { shop: weekdays },
  activities: [
    activity('mudguards', { takes: lognormal(30, 0.2), supplier: 'Tarn Plating', gate: 'sublet-out' }),
    activity('rims', { takes: lognormal(20, 0.2), supplier: 'Tarn Plating', gate: 'sublet-out' }),
    activity('seat', { takes: lognormal(10, 0.2), supplier: 'Moss Trim' }),
    activity('stanchions', { finished: '2026-02-20', supplier: 'Fell Grinding' }),
    activity('wheels', { kind: 'bench', takes: lognormal(8, 0.2), gate: 'reassembled' }),
    activity('build', { kind: 'bench', takes: lognormal(16, 0.2), gate: 'reassembled' }),
  ],
  links: [
    { from: 'mudguards', to: 'build' },
    { from: 'rims', to: 'wheels' },
    { from: 'wheels', to: 'build' },
    { from: 'seat', to: 'build' },
    { from: 'stanchions', to: 'build' },
  ],
};

function supposed(...changes: Change[]): WhatIf {
  const result = whatIf(model, changes, { seed: 1, runs: 4000 });
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  return result;
}

describe('what if', () => {
  it('the plater is two weeks late: two weeks on all that comes from there', () => {
    const { handOver, gates } = supposed({ kind: 'supplier-later', supplier: 'Tarn Plating', by: 10 });
    expect(handOver).toMatchObject({ even: 14, safe: 14 });
    expect(gates.get('sublet-out')).toMatchObject({ even: 14, safe: 14 });
  });

  it('a line with slack is late: nothing, until the slack is used up', () => {
    expect(supposed({ kind: 'later', id: 'seat', by: 5 }).handOver.even).toBe(0);
    expect(supposed({ kind: 'later', id: 'seat', by: 40 }).handOver.even).toBeGreaterThan(14);
    expect(supposed({ kind: 'later', id: 'mudguards', by: -3 }).handOver.even).toBeLessThan(0);
  });

  it('the mudguards are bought new: sooner, until the rims hold it up', () => {
    const bought: Change = {
      kind: 'instead',
      id: 'mudguards',
      activity: { kind: 'order', takes: lognormal(7, 0.3), supplier: 'Beck Spares' },
    };
    const { handOver, after } = supposed(bought);
    expect(handOver.even).toBeLessThan(-5);
    expect(after.handOver.chain).toEqual(['rims', 'wheels', 'build']);
    expect(after.activities.get('mudguards')?.critical).toBeLessThan(0.01);
  });

  it('something is left out, and what comes after waits for what came before', () => {
    const { handOver, after } = supposed({ kind: 'left-out', id: 'wheels' });
    expect(after.activities.has('wheels')).toBe(false);
    expect(handOver.even).toBeLessThanOrEqual(0);
    const noRims = supposed({ kind: 'left-out', id: 'mudguards' }, { kind: 'left-out', id: 'wheels' });
    expect(noRims.after.handOver.chain).toEqual(['rims', 'build']);
  });

  it('keeps the wait after what came before a thing left out', () => {
    const cured = {
      ...model,
      links: model.links.map((link) =>
        link.from === 'rims' ? { ...link, lag: { days: 60, counted: 'calendar' as const } } : link,
      ),
    };
    const result = whatIf(cured, [{ kind: 'left-out', id: 'wheels' }], { seed: 1, runs: 500 });
    if (!result.ok) throw new Error(JSON.stringify(result.fault));
    // The rims, back in about four weeks, still wait sixty days: mid-May at the soonest.
    expect(result.after.handOver.early > '2026-05-10').toBe(true);
  });

  it('something more has to be done, and more hands do it', () => {
    const found: Change = {
      kind: 'more',
      activity: activity('crankcase weld', { takes: lognormal(45, 0.2) }),
      after: [],
      before: ['build'],
    };
    const { handOver } = supposed(found);
    expect(handOver.even).toBeGreaterThan(14);
    const hands = supposed(found, { kind: 'bench-hours', aDay: 16 });
    expect(hands.handOver.even).toBeLessThan(handOver.even);
  });

  it('nothing changes when nothing is supposed', () => {
    const { handOver, before, after } = supposed();
    expect(handOver).toMatchObject({ even: 0, safe: 0 });
    expect(after).toEqual(before);
  });

  it('refuses by name what makes no sense', () => {
    const fault = (change: Change) => {
      const result = whatIf(model, [change], { seed: 1, runs: 100 });
      return result.ok ? null : result.fault;
    };
    expect(fault({ kind: 'later', id: 'ghost', by: 1 })).toEqual({ kind: 'unknown-activity', id: 'ghost' });
    expect(fault({ kind: 'left-out', id: 'stanchions' })).toEqual({ kind: 'done-already', id: 'stanchions' });
    expect(fault({ kind: 'supplier-later', supplier: 'Fell Grinding', by: 5 })).toEqual({
      kind: 'nothing-from',
      supplier: 'Fell Grinding',
    });
    expect(fault({ kind: 'bench-hours', aDay: 0 })).toEqual({ kind: 'no-hands' });
    const loop = { kind: 'more' as const, activity: activity('x'), after: ['build'], before: ['wheels'] };
    expect(fault(loop)).toMatchObject({ kind: 'cycle' });
  });
});
