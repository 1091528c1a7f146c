import { describe, expect, it } from 'vitest';
import { forecast } from '../../../src/plan/forecast.js';
import { lognormal } from '../../../src/plan/lead-times/lead-time.js';
import type { PlanActivity, PlanModel } from '../../../src/plan/model.js';
import { COLOURS } from '../../../src/plan/picture/colours.js';
import { axisMarks, timeAxis } from '../../../src/plan/picture/time-axis.js';
import { timelineRows, type RowSpeech } from '../../../src/plan/picture/timeline-rows.js';
import { drawTimeline } from '../../../src/plan/picture/timeline.js';
import { activity, inventedJob, weekdays } from '../forecast/invented-job.js';
import { row, timeline } from './invented-timeline.js';

/** The rectangles of a picture with a given fill or stroke. */
function rectangles(svg: string, paint: string): { x: number; width: number; opacity: number }[] {
  return [...svg.matchAll(/<rect ([^>]*)>/g)]
    .map((found) => found[1] ?? '')
    .filter((text) => text.includes(`"${paint}"`))
    .map((text) => {
      const read = (name: string): number =>
        Number(new RegExp(`(?:^| )${name}="([^"]*)"`).exec(text)?.[1] ?? NaN);
      return { x: read('x'), width: read('width'), opacity: read('fill-opacity') };
    });
}

describe('a timeline', () => {
  const axis = timeAxis('2026-02-01', '2026-07-31', 0, 1810);

  it('lays days along x and cuts what lies outside', () => {
    // 181 days, ten pixels each.
    expect(axis.x('2026-02-01')).toBe(0);
    expect(axis.x('2026-02-11')).toBe(100);
    expect(axis.end('2026-02-10')).toBe(100);
    expect(axis.end('2026-07-31')).toBe(1810);
    expect(axis.x('2025-01-01')).toBe(0);
    expect(axis.end('2029-01-01')).toBe(1810);
  });

  it('marks Mondays while it is short, then months, never too many', () => {
    expect(axisMarks(axis, 'en-GB').map((mark) => mark.label)).toEqual([
      'Feb',
      'Mar',
      'Apr',
      'May',
      'Jun',
      'Jul',
    ]);
    expect(
      axisMarks(timeAxis('2026-03-01', '2026-03-25', 0, 100), 'en-GB').map((mark) => mark.label),
    ).toEqual(['2 Mar', '9 Mar', '16 Mar', '23 Mar']);
    for (const last of ['2026-02-02', '2026-04-20', '2026-12-31', '2027-12-31']) {
      expect(axisMarks(timeAxis('2026-02-01', last, 0, 100), 'en-GB').length).toBeLessThanOrEqual(7);
    }
  });

  it('fills what is behind today, tints what is ahead, hatches what is unsure', () => {
    const one = row('12 Mudguards', { begins: '2026-03-01', even: '2026-03-20', safe: '2026-03-30' });
    const drawn = drawTimeline({ ...timeline, today: '2026-03-11', rows: [one] });
    const [solid, tint] = rectangles(drawn, COLOURS.away).filter((part) => !Number.isNaN(part.opacity));
    const [hatch] = rectangles(drawn, 'url(#hatch-away)');
    expect(solid?.opacity).toBe(1);
    expect(tint?.opacity).toBeLessThan(0.5);
    // Ten days behind, ten to the end of the even date, ten more to that of the safe one.
    expect((tint?.width ?? 0) / (solid?.width ?? 1)).toBeCloseTo(1, 1);
    expect((hatch?.width ?? 0) / (solid?.width ?? 1)).toBeCloseTo(1, 1);
    expect(tint?.x).toBeCloseTo((solid?.x ?? 0) + (solid?.width ?? 0), 0);
  });

  it('stays on the sheet, and has no text too small for a phone', () => {
    const far = row('x'.repeat(300), {
      begins: '2019-01-01',
      even: '2034-01-01',
      safe: '2040-01-01',
      promised: '1999-01-01',
    });
    const drawn = drawTimeline({ ...timeline, rows: [...timeline.rows, far] });
    const placed = [...rectangles(drawn, COLOURS.away), ...rectangles(drawn, COLOURS.bench)].filter(
      (one) => !Number.isNaN(one.x),
    );
    expect(placed.length).toBeGreaterThan(10);
    for (const { x, width } of placed) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x + width).toBeLessThanOrEqual(1080);
    }
    const sizes = [...drawn.matchAll(/font-size="(\d+)"/g)].map((found) => Number(found[1]));
    // 28 of 1080 pixels is 10 points on a phone 390 points wide.
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(28);
    expect(drawn).not.toContain('x'.repeat(100));
  });

  it('explains what it holds, and no more', () => {
    const bare = drawTimeline({ ...timeline, rows: [row('Seat')] });
    const said = (word: string): string => `>${word}</text>`;
    expect(bare).toContain(said(timeline.words.away));
    for (const word of ['done', 'bench', 'answer', 'promised', 'late', 'holds'] as const) {
      expect(bare).not.toContain(said(timeline.words[word]));
      expect(drawTimeline(timeline)).toContain(said(timeline.words[word]));
    }
  });

  it('can be drawn with nothing in it', () => {
    expect(drawTimeline({ ...timeline, rows: [], lead: [], more: '' })).toMatch(/^<svg .*<\/svg>$/s);
  });
});

describe('which rows a timeline has', () => {
  const speech: RowSpeech = {
    label: (activities) => activities.map((one) => one.id).join('+'),
    note: (_, { safe }) => safe,
    promised: (one) => (one.id === 'rims' ? '2026-02-20' : null),
  };
  const out = { supplier: 'Tarn Plating', started: '2026-02-09' };
  const job: PlanModel = {
    today: '2026-03-02',
    benchHoursADay: 4,
    calendars: { shop: weekdays },
    activities: [
      ...['a', 'b', 'c'].map((id, k) =>
        activity(id, { started: '2026-01-05', finished: `2026-02-0${k + 1}` }),
      ),
      activity('rims', out),
      activity('mudguards', { ...out, takes: lognormal(40, 0.2) }),
      activity('seat', { takes: lognormal(5, 0.2), kind: 'order' }),
      ...['wheels', 'forks'].map((id) =>
        activity(id, { kind: 'bench', takes: lognormal(4, 0.2), gate: 'reassembled' }),
      ),
      activity('yes', { kind: 'answer', takes: lognormal(2, 0.2) }),
    ],
    links: [
      { from: 'mudguards', to: 'wheels' },
      { from: 'rims', to: 'wheels' },
    ],
  };
  const rowsOf = (model: PlanModel, most: number) => {
    const result = forecast(model, { seed: 1, runs: 500 });
    if (!result.ok) throw new Error(JSON.stringify(result.fault));
    return timelineRows(model, result, speech, most);
  };

  it('puts a parcel together, and the bench work of a gate', () => {
    const { rows, leftOut } = rowsOf(job, 20);
    expect(leftOut).toBe(0);
    const found = rows.find((one) => one.label === 'rims+mudguards');
    expect(found).toMatchObject({
      state: 'away',
      begins: '2026-02-09',
      late: true,
      promised: '2026-02-20',
      holds: true,
    });
    expect(rows.find((one) => one.label === 'wheels+forks')).toMatchObject({ state: 'bench', late: false });
    expect(rows.find((one) => one.label === 'yes')?.state).toBe('answer');
    // The last two things done, and no more.
    expect(rows.filter((one) => one.state === 'done').map((one) => one.label)).toEqual(['b', 'c']);
    expect(rows.map((one) => one.begins)).toEqual(rows.map((one) => one.begins).sort());
  });

  it('keeps what matters when there is little room', () => {
    const { rows, leftOut } = rowsOf(job, 4);
    expect(rows.map((one) => one.label)).toEqual(expect.arrayContaining(['rims+mudguards', 'wheels+forks']));
    expect(rows.length).toBe(4);
    expect(leftOut).toBe(2);
  });

  it('keeps a picture of a job of five hundred items to its size', () => {
    const big = inventedJob(700, 6, 2);
    const { rows, leftOut } = rowsOf(big, 14);
    expect(rows.length).toBe(14);
    expect(leftOut).toBeGreaterThan(50);
    const gates = (one: PlanActivity): string => String(one.gate);
    expect(new Set(big.activities.map(gates)).size).toBe(2);
  });
});
