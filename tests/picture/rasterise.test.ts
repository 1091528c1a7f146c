import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rasterise, render } from '../../src/picture/rasterise.js';
import { drawFortnight } from '../../src/plan/picture/fortnight.js';
import { escapeText, fitted, picture, textLine, widthOf } from '../../src/plan/picture/svg.js';
import { drawTimeline } from '../../src/plan/picture/timeline.js';
import { fortnight } from '../plan/picture/invented-fortnight.js';
import { row, timeline } from '../plan/picture/invented-timeline.js';

/** Columns of a picture that have anything on them. */
function inkedColumns(svg: string): number[] {
  const { width, height, pixels } = render(svg);
  return Array.from({ length: width }, (_, x) => x).filter((x) => {
    for (let y = 0; y < height; y += 1) if ((pixels[(y * width + x) * 4 + 3] ?? 0) > 0) return true;
    return false;
  });
}

const line = (text: string, size = 40, bold = false): string =>
  picture(4000, 80, textLine(10, 50, text, { size, colour: '#000000', bold, edge: false }));

describe('text in pictures', () => {
  it('is there, plain and bold', () => {
    expect(inkedColumns(line('')).length).toBe(0);
    const plain = inkedColumns(line('Mudguards'));
    const bold = inkedColumns(line('Mudguards', 40, true));
    expect(plain.length).toBeGreaterThan(100);
    expect(bold.length).toBeGreaterThan(plain.length * 1.03);
  });

  it('takes no more room than was reckoned, and not much less', () => {
    const texts = [
      '12 Mudguards and rims, Tarn Plating',
      'Rebore & new piston at Moss & Beck',
      'Fit the big end and true the flywheels',
      'WWWW mmmm MMMM @@@',
      'illicit little jilt, 111',
      'Größe Schönfärberei naïveté',
    ];
    for (const text of texts) {
      for (const bold of [false, true]) {
        const columns = inkedColumns(line(text, 40, bold));
        const real = (columns.at(-1) ?? 0) - 10;
        expect(widthOf(text, 40, bold) / real, text).toBeGreaterThan(0.97);
        expect(widthOf(text, 40, bold) / real, text).toBeLessThan(1.45);
      }
    }
  });

  it('is cut where it doesn’t fit', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 80 }),
        fc.integer({ min: 40, max: 900 }),
        (text, width) => {
          const cut = fitted(text, 30, width);
          expect(widthOf(cut, 30)).toBeLessThanOrEqual(width);
          expect(cut === text || cut.endsWith('…')).toBe(true);
        },
      ),
    );
  });
});

describe('whole pictures', () => {
  it('are PNG of the drawing’s size', () => {
    for (const svg of [drawTimeline(timeline), ...drawFortnight(fortnight)]) {
      const png = rasterise(svg);
      expect(png.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
      // Width and height stand at bytes 16 and 20 (PNG specification, 11.2.2).
      expect(png.readUInt32BE(16)).toBe(1080);
      expect(String(png.readUInt32BE(20))).toBe(/height="(\d+)"/.exec(svg)?.[1]);
    }
  });

  it('hold their words: a picture without them is another', () => {
    const blank = {
      ...timeline,
      title: '',
      lead: ['', ''],
      rows: timeline.rows.map((one) => ({ ...one, label: '' })),
    };
    const dark = (svg: string): number => {
      const { pixels } = render(svg);
      let count = 0;
      for (let k = 0; k < pixels.length; k += 4) if ((pixels[k] ?? 255) < 90) count += 1;
      return count;
    };
    expect(dark(drawTimeline(timeline))).toBeGreaterThan(dark(drawTimeline(blank)) + 8000);
  });

  it('are drawn whatever people wrote', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        const svg = drawTimeline({ ...timeline, title: text, rows: [row(`<b>&"'${text}`)], more: text });
        expect(render(svg).width).toBe(1080);
      }),
      { numRuns: 8 },
    );
  });

  it('never let a text become markup', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        // Legal characters: XML 1.0, section 2.2; the named ones alone may follow an ampersand.
        const safe = escapeText(text);
        expect(safe).not.toMatch(/[<>"]|&(?!(amp|lt|gt|quot);)/);
        expect(safe).toMatch(/^[\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]*$/u);
      }),
      { numRuns: 500 },
    );
    expect(escapeText('\uD800a\u0000\uFFFE')).toBe(' a  ');
  });
});
