import { describe, expect, it } from 'vitest';
import { drawFortnight } from '../../../src/plan/picture/fortnight.js';
import { fortnight } from './invented-fortnight.js';

describe('the fortnight', () => {
  it('has two mechanics to a picture, each with their own work', () => {
    const pictures = drawFortnight(fortnight);
    expect(pictures.length).toBe(2);
    expect(pictures[0]).toContain('Callow');
    expect(pictures[0]).not.toContain('Pike');
    expect(pictures[1]).toContain('Tank and seat on');
    expect(pictures[1]).not.toContain('Wheel bearings');
  });

  it('grows with the fullest day, and says what days are closed', () => {
    const heightOf = (svg: string | undefined): number => Number(/height="(\d+)"/.exec(svg ?? '')?.[1]);
    const before = drawFortnight(fortnight)[0];
    const extra = ['one', 'two', 'three'].map((task) => ({
      day: '2026-04-10',
      mechanic: 'Wren',
      job: 'Ketterby 350',
      task,
      hours: 1,
    }));
    const after = drawFortnight({ ...fortnight, tasks: [...fortnight.tasks, ...extra] })[0];
    expect(heightOf(after)).toBeGreaterThan(heightOf(before) + 150);
    expect(before).toContain('Good Friday');
    expect(before).toContain('Mon 6');
  });

  it('keeps a job’s colour from one picture to the next', () => {
    const colourOf = (svg: string | undefined): string | undefined =>
      /fill="(#\w+)"[^>]*\/><text[^>]*>(?:Wiring loom|Tank and seat on)</.exec(svg ?? '')?.[1];
    const [first, second] = drawFortnight(fortnight);
    expect(colourOf(first)).toBeDefined();
    expect(colourOf(second)).toBe(colourOf(first));
  });

  it('is readable on a phone and can be empty', () => {
    const sizes = [...(drawFortnight(fortnight)[0] ?? '').matchAll(/font-size="(\d+)"/g)].map((found) =>
      Number(found[1]),
    );
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(28);
    expect(drawFortnight({ ...fortnight, mechanics: [], tasks: [], days: [] })).toHaveLength(1);
  });
});
