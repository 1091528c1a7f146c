import { describe, expect, it } from 'vitest';
import { cautionById, cautions } from '../../src/trade/cautions/load.js';
import { reference } from '../support/reference.js';

/** A row of tests/references/cautions.json; its `source` says where the value is published. */
type Row = {
  topic: string;
  formula: string;
  expected: string | Record<string, number | number[]>;
  source: string;
  from_memory: boolean;
};
const rows = reference<Row[]>('cautions.json');
const textOf = (id: string): string => cautionById(id)?.text ?? '';
const rowOf = (words: string): Row => {
  const row = rows.find((each) => each.formula.includes(words));
  if (!row) throw new Error(`no reference row says '${words}'`);
  return row;
};
const valueOf = (row: Row, key: string): number => {
  const value = typeof row.expected === 'string' ? undefined : row.expected[key];
  if (typeof value !== 'number') throw new Error(`${row.formula}: no number ${key}`);
  return value;
};

describe('the figures in the cautions agree with what is published', () => {
  it('baking after plating (ASTM B850-98 Table 1; the four hours and 1000 MPa as in B849/B850, partly from memory)', () => {
    const said =
      /over about (\d+) MPa.* baked at (\d+)-(\d+) °C within (\d+) hours of plating, for (\d+) to (\d+)/.exec(
        textOf('hydrogen-embrittlement'),
      );
    const [threshold, coolest, hottest, delay, shortest, longest] = (said ?? []).slice(1).map(Number);
    const bakes = rows.filter((row) => row.formula.startsWith('embrittlement relief bake'));
    const hours = bakes.map((row) => valueOf(row, 'hours_min'));
    expect(bakes.length).toBe(8);
    expect([shortest, longest]).toEqual([Math.min(...hours), Math.max(...hours)]);
    for (const row of bakes) expect(row.formula).toContain(`${coolest}-${hottest} C`);
    expect(delay).toBe(valueOf(rowOf('start bake within'), 'max_delay_h'));
    expect(rowOf('bake not required').formula).toContain(`< ${threshold} MPa`);
  });

  it('heating cases (bearing and alloy temperatures, from memory)', () => {
    const row = rowOf('rolling bearings should not exceed');
    const [bearing, alloy] = [...textOf('heat-cases').matchAll(/(\d+) °C/g)].map((found) => Number(found[1]));
    expect(row.formula).toContain(`about ${bearing}-`);
    expect(row.formula).toContain(`about ${alloy}-`);
  });

  it('rims (DVSA motorcycle manual 5.2.2) and treads (VOSA manual 4.1)', () => {
    const rim = rowOf('rim lateral distortion');
    expect(textOf('wheel-building')).toContain(`${valueOf(rim, 'steel_mm')} mm (steel)`);
    expect(textOf('wheel-building')).toContain(`${valueOf(rim, 'alloy_mm')} mm (alloy)`);
    const tread = rowOf('tyre tread');
    expect(textOf('tyres')).toContain(`at least ${valueOf(tread, 'mm')} mm over three quarters`);
    expect(valueOf(tread, 'breadth')).toBe(0.75);
  });

  it('high tension (from memory)', () => {
    const published = rows
      .map(({ expected }) => expected)
      .find((text) => typeof text === 'string' && text.includes('Magneto/coil HT'));
    const volts = [...textOf('high-tension').matchAll(/(\d+),000/g)].map((found) => found[1]);
    expect(published).toContain(`${volts.join('-')} kV`);
  });

  it('every publication of the safety rows is cited by a caution', () => {
    const mark =
      /INDG\d+|HSG\d+|\bL\d{3}\b|\bCN\d+|\bSR\d+|OC \d+\/\d+|RR\d+|29 CFR 1910\.\d+|DSEAR|asbestos\.htm/g;
    const published = rows.filter((row) => row.topic.startsWith('16') && !row.from_memory);
    const wanted = [...new Set(published.flatMap((row) => row.source.match(mark) ?? []))];
    const cited = cautions
      .map(({ source }) => [source.body, source.reference, source.note].join(' '))
      .join('\n');
    expect(wanted.length).toBeGreaterThan(8);
    expect(wanted.filter((each) => !cited.includes(each))).toEqual([]);
  });
});
