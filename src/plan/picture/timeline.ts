import { dateOfDay, dayNumber, type IsoDate } from '../days.js';
import { COLOURS, FAINT_INK, INK, PAPER, RULE } from './colours.js';
import { bar, diamond, hatches, holdMark } from './marks.js';
import { element, fitted, picture, textLine, widthOf } from './svg.js';
import { drawAxis, timeAxis, type TimeAxis } from './time-axis.js';

export type RowState = 'done' | 'away' | 'bench' | 'answer';

/** One bar: what is done, out, at the bench or waited for. */
export type TimelineRow = {
  label: string;
  /** A few words at the end of the label's line, such as the safe date. */
  note: string;
  state: RowState;
  begins: IsoDate;
  /** When it ends at even chances, and four times in five; the same date for what is done. */
  even: IsoDate;
  safe: IsoDate;
  /** A date somebody gave, marked on the bar. */
  promised: IsoDate | null;
  /** The promise has passed and it isn't back. */
  late: boolean;
  /** It is among what most often holds the job up. */
  holds: boolean;
};

/** Words of the picture; all that is read in it comes from outside. */
export type TimelineWords = {
  today: string;
  done: string;
  away: string;
  bench: string;
  answer: string;
  unsure: string;
  promised: string;
  late: string;
  holds: string;
};

export type Timeline = {
  title: string;
  /** The answer in a sentence or two, one line each. */
  lead: readonly string[];
  today: IsoDate;
  /** The hand-over, or whatever the rows lead to. */
  goal: { label: string; note: string; early: IsoDate; even: IsoDate; safe: IsoDate };
  rows: readonly TimelineRow[];
  /** Said under the rows, such as how many there are besides. */
  more: string;
  words: TimelineWords;
  /** For the names of months, such as `en-GB`. */
  locale: string;
};

const WIDTH = 1080;
const MARGIN = 44;
const ROW = 112;
const BAR = 34;
const LABEL = 36;
const NOTE = 32;
const SMALL = 30;
const MOST_DAYS_AHEAD = 550;

/** A job's timeline as SVG, upright for a phone: 1080 pixels wide, as high as its rows need. */
export function drawTimeline(timeline: Timeline): string {
  const { title, lead, rows, words, today, locale, goal, more } = timeline;
  const axis = axisOf(timeline);
  const headEnd = 96 + lead.length * 46;
  const axisTop = headEnd + 108;
  const rowsTop = axisTop + 26;
  const rowsEnd = rowsTop + (rows.length + 1) * ROW;
  const legendTop = rowsEnd + (more === '' ? 44 : 88);
  const legend = drawLegend(words, rows, legendTop);
  const inside = [
    element('defs', {}, hatches()),
    element('rect', { width: WIDTH, height: legend.bottom, fill: PAPER }),
    textLine(MARGIN, 78, fitted(title, 50, WIDTH - 2 * MARGIN, true), { size: 50, colour: INK, bold: true }),
    ...lead.map((line, k) =>
      textLine(MARGIN, 134 + k * 46, fitted(line, 36, WIDTH - 2 * MARGIN), { size: 36, colour: INK }),
    ),
    drawAxis(axis, locale, axisTop, rowsEnd, SMALL),
    drawToday(axis, today, words.today, axisTop - 52, rowsEnd),
    drawGoal(axis, goal, rowsTop),
    ...rows.map((row, k) => drawRow(axis, row, today, rowsTop + (k + 1) * ROW)),
    more === '' ? '' : textLine(MARGIN, rowsEnd + 40, more, { size: SMALL, colour: FAINT_INK }),
    legend.markup,
  ];
  return picture(WIDTH, legend.bottom, inside.join(''));
}

/** From what began first, though no more of the past than of what is to come, to the last safe date. */
function axisOf({ rows, goal, today }: Timeline): TimeAxis {
  const now = dayNumber(today);
  const ends = [
    goal.safe,
    today,
    ...rows.map((row) => row.safe),
    ...rows.flatMap((row) => row.promised ?? []),
  ];
  const last = Math.min(now + MOST_DAYS_AHEAD, Math.max(...ends.map(dayNumber)) + 2);
  const begun = Math.min(now - 7, ...rows.map((row) => dayNumber(row.begins)));
  const first = Math.max(begun, now - Math.max(28, last - now));
  return timeAxis(dateOfDay(first), dateOfDay(last), MARGIN, WIDTH - MARGIN);
}

function drawRow(axis: TimeAxis, row: TimelineRow, today: IsoDate, top: number): string {
  const barTop = top + 50;
  const colour = row.late ? COLOURS.late : COLOURS[row.state];
  const mark = row.promised === null ? '' : diamond(axis.x(row.promised), barTop + BAR / 2);
  return (
    rule(top) +
    (row.holds ? holdMark(8, top + 14, ROW - 28) : '') +
    heading(row.label, row.note, top, row.holds) +
    bar(axis, row, { today, colour, top: barTop, height: BAR, pattern: row.late ? 'late' : row.state }) +
    mark
  );
}

function drawGoal(axis: TimeAxis, goal: Timeline['goal'], top: number): string {
  const barTop = top + 50;
  const from = axis.x(goal.early);
  const width = Math.max(10, axis.end(goal.safe) - from);
  const frame = { x: from, y: barTop, width, height: BAR, rx: 6 };
  return (
    heading(goal.label, goal.note, top, true) +
    element('rect', { ...frame, fill: 'url(#hatch-ink)', stroke: INK, 'stroke-width': 3 }) +
    element('rect', {
      x: axis.x(goal.even) - 4,
      y: barTop - 8,
      width: 10,
      height: BAR + 16,
      rx: 4,
      fill: INK,
    })
  );
}

function heading(label: string, note: string, top: number, bold: boolean): string {
  const noteWidth = note === '' ? 0 : widthOf(note, NOTE, bold) + 24;
  const room = WIDTH - 2 * MARGIN - noteWidth;
  return (
    textLine(MARGIN, top + 38, fitted(label, LABEL, room, bold), { size: LABEL, colour: INK, bold }) +
    textLine(WIDTH - MARGIN, top + 38, note, { size: NOTE, colour: INK, anchor: 'end', bold })
  );
}

function rule(y: number): string {
  return element('line', { x1: MARGIN, y1: y, x2: WIDTH - MARGIN, y2: y, stroke: RULE, 'stroke-width': 1.5 });
}

function drawToday(axis: TimeAxis, today: IsoDate, word: string, top: number, bottom: number): string {
  const x = axis.x(today);
  const width = widthOf(word, SMALL, true) + 24;
  const left = Math.max(MARGIN, Math.min(WIDTH - MARGIN - width, x - width / 2));
  return (
    element('line', {
      x1: x,
      y1: top + 12,
      x2: x,
      y2: bottom,
      stroke: INK,
      'stroke-width': 4,
      'stroke-dasharray': '14 8',
    }) +
    element('rect', { x: left, y: top - 28, width, height: 40, rx: 8, fill: INK }) +
    textLine(left + width / 2, top + 2, word, {
      size: SMALL,
      colour: PAPER,
      anchor: 'middle',
      bold: true,
      edge: false,
    })
  );
}

/** Only what the picture holds is explained, two to a line. */
function drawLegend(
  words: TimelineWords,
  rows: readonly TimelineRow[],
  top: number,
): { markup: string; bottom: number } {
  const states: RowState[] = ['done', 'away', 'bench', 'answer'];
  const swatch = (fill: string) => (x: number, y: number) =>
    element('rect', { x, y: y - 26, width: 52, height: 30, rx: 6, fill, stroke: INK, 'stroke-width': 2 });
  const used = [
    ...states
      .filter((state) => rows.some((row) => row.state === state && !row.late))
      .map((state) => ({ word: words[state], draw: swatch(COLOURS[state]) })),
    ...(rows.some((row) => row.late) ? [{ word: words.late, draw: swatch(COLOURS.late) }] : []),
    { word: words.unsure, draw: swatch('url(#hatch-ink)') },
    ...(rows.some((row) => row.promised !== null)
      ? [{ word: words.promised, draw: (x: number, y: number) => diamond(x + 26, y - 11) }]
      : []),
    ...(rows.some((row) => row.holds)
      ? [{ word: words.holds, draw: (x: number, y: number) => holdMark(x + 20, y - 28, 34) }]
      : []),
  ];
  const markup = used
    .map(({ word, draw }, k) => {
      const x = MARGIN + (k % 2) * ((WIDTH - 2 * MARGIN) / 2);
      const y = top + 20 + Math.floor(k / 2) * 50;
      return draw(x, y) + textLine(x + 70, y - 1, fitted(word, SMALL, 420), { size: SMALL, colour: INK });
    })
    .join('');
  return { markup, bottom: top + Math.ceil(used.length / 2) * 50 + 20 };
}
