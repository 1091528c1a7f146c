import {
  differenceCiede2000,
  filterDeficiencyDeuter,
  filterDeficiencyProt,
  filterDeficiencyTrit,
  parse,
  wcagContrast,
  type Color,
} from 'culori';
import { describe, expect, it } from 'vitest';
import { COLOURS, FAINT_INK, INK, PAPER } from '../../../src/plan/picture/colours.js';

// culori (MIT) simulates by the matrices of Machado, Oliveira & Fernandes 2009, at full severity.
const eyes: [string, (colour: Color) => Color][] = [
  ['all three cones', (colour) => colour],
  ['protanopia', filterDeficiencyProt(1)],
  ['deuteranopia', filterDeficiencyDeuter(1)],
  ['tritanopia', filterDeficiencyTrit(1)],
];
const names = Object.keys(COLOURS) as (keyof typeof COLOURS)[];
const pairs = names.flatMap((a, k) => names.slice(k + 1).map((b) => [a, b] as const));
const colour = (hex: string): Color => {
  const parsed = parse(hex);
  if (!parsed) throw new Error(hex);
  return parsed;
};

describe('colours of the pictures', () => {
  it.each(eyes)('differ by 20 in CIEDE2000 or more with %s', (_, seen) => {
    const difference = differenceCiede2000();
    for (const [a, b] of pairs) {
      const apart = difference(seen(colour(COLOURS[a])), seen(colour(COLOURS[b])));
      expect(apart, `${a} and ${b}`).toBeGreaterThanOrEqual(20);
    }
  });

  it('stand out from the paper: 3:1 for bars, 7:1 for text (WCAG 2.2, 1.4.11 and 1.4.6)', () => {
    for (const name of names) expect(wcagContrast(COLOURS[name], PAPER), name).toBeGreaterThanOrEqual(3);
    for (const ink of [INK, FAINT_INK]) expect(wcagContrast(ink, PAPER)).toBeGreaterThanOrEqual(7);
  });
});
