import { dayNumber, type IsoDate } from '../days.js';
import { COLOURS, INK, PAPER } from './colours.js';
import { element } from './svg.js';
import type { TimeAxis } from './time-axis.js';

type Pattern = keyof typeof COLOURS;

/** The hatchings, one a colour and one of ink, to stand in a picture's `defs`. */
export function hatches(): string {
  const lines = Object.entries({ ...COLOURS, ink: INK });
  return lines
    .map(([name, colour]) =>
      element(
        'pattern',
        {
          id: `hatch-${name}`,
          width: 14,
          height: 14,
          patternUnits: 'userSpaceOnUse',
          patternTransform: 'rotate(45)',
        },
        element('rect', { width: 14, height: 14, fill: PAPER }) +
          element('rect', { width: 5, height: 14, fill: colour }),
      ),
    )
    .join('');
}

export type BarSpan = { begins: IsoDate; even: IsoDate; safe: IsoDate };
export type BarStyle = { today: IsoDate; colour: string; top: number; height: number; pattern: Pattern };

/**
 * A bar in up to three parts: what lies behind today filled, what is ahead tinted up to its even date, and from there to
 * its safe date hatched.
 */
export function bar(axis: TimeAxis, { begins, even, safe }: BarSpan, style: BarStyle): string {
  const { today, colour, top, height, pattern } = style;
  const now = axis.x(today);
  const from = axis.x(begins);
  const middle = axis.end(even);
  const end = axis.end(safe);
  const part = (left: number, right: number, fill: string, opacity: number): string =>
    right - left < 0.5
      ? ''
      : element('rect', { x: left, y: top, width: right - left, height, fill, 'fill-opacity': opacity });
  const wholly = pattern === 'done';
  const behind = wholly ? middle : Math.min(middle, Math.max(from, now));
  const frame = element('rect', {
    x: from,
    y: top,
    width: Math.max(8, end - from),
    height,
    rx: 5,
    fill: 'none',
    stroke: colour,
    'stroke-width': 3,
  });
  return (
    part(from, Math.max(behind, from + (wholly ? 8 : 0)), colour, 1) +
    part(Math.max(from, behind), middle, colour, 0.38) +
    part(middle, end, `url(#hatch-${pattern})`, 1) +
    frame +
    (dayNumber(begins) < axis.first ? cutMark(from, top, height) : '')
  );
}

/** Shows that a bar began before the picture does. */
function cutMark(x: number, top: number, height: number): string {
  const points = [`${x + 22},${top + 6}`, `${x + 8},${top + height / 2}`, `${x + 22},${top + height - 6}`];
  return element('polyline', { points: points.join(' '), fill: 'none', stroke: PAPER, 'stroke-width': 5 });
}

/** A promised date. */
export function diamond(x: number, y: number): string {
  const points = [
    [x, y - 21],
    [x + 15, y],
    [x, y + 21],
    [x - 15, y],
  ];
  return element('polygon', {
    points: points.map((point) => point.join(',')).join(' '),
    fill: PAPER,
    stroke: INK,
    'stroke-width': 4,
  });
}

/** Stands before what holds the job up. */
export function holdMark(x: number, y: number, height: number): string {
  return element('rect', { x, y, width: 14, height, rx: 5, fill: INK });
}
