import { DateTime } from 'luxon';
import type { IsoDate } from '../days.js';
import { CLOSED, COLOURS, FAINT_INK, INK, PAPER, RULE } from './colours.js';
import { element, fitted, picture, textLine, widthOf } from './svg.js';

/** A piece of bench work on a day. */
export type FortnightTask = { day: IsoDate; mechanic: string; job: string; task: string; hours: number };

export type Fortnight = {
  title: string;
  today: IsoDate;
  /** The days to show, in order; those on which the shop is closed with the reason in a word or two. */
  days: readonly { date: IsoDate; closed: string | null }[];
  mechanics: readonly string[];
  tasks: readonly FortnightTask[];
  words: { hour: string; free: string };
  locale: string;
};

const WIDTH = 1080;
const MARGIN = 36;
const DAY_WIDTH = 128;
const TASK = 86;
const EMPTY = 62;
const SHUT = 46;
const TOP = 176;
/** More columns than this can't be read on a phone. */
const ABREAST = 2;
/** Bars beside the tasks tell jobs apart, in turn; the job's name stands there too. */
const JOB_COLOURS = [COLOURS.bench, COLOURS.away, COLOURS.answer, COLOURS.late, COLOURS.done];

/**
 * The shop's fortnight as SVG, upright for a phone, days down and mechanics across: one picture for every two mechanics.
 * Without mechanics there is one picture of the days alone.
 */
export function drawFortnight(fortnight: Fortnight): string[] {
  const { mechanics } = fortnight;
  const pages = Math.max(1, Math.ceil(mechanics.length / ABREAST));
  return Array.from({ length: pages }, (_, k) =>
    drawPage(fortnight, mechanics.slice(k * ABREAST, (k + 1) * ABREAST)),
  );
}

function drawPage(fortnight: Fortnight, mechanics: readonly string[]): string {
  const { title, days, tasks, locale, today, words } = fortnight;
  const jobs = [...new Set(tasks.map((task) => task.job))].sort();
  const colourOf = (job: string): string => JOB_COLOURS[jobs.indexOf(job) % JOB_COLOURS.length] ?? INK;
  const column = (WIDTH - 2 * MARGIN - DAY_WIDTH) / Math.max(1, mechanics.length);
  const left = (k: number): number => MARGIN + DAY_WIDTH + k * column;
  const parts: string[] = [
    textLine(MARGIN, 70, fitted(title, 46, WIDTH - 2 * MARGIN, true), { size: 46, colour: INK, bold: true }),
    ...mechanics.map((name, k) =>
      textLine(left(k) + 12, 142, fitted(name, 38, column - 20, true), { size: 38, colour: INK, bold: true }),
    ),
  ];
  let top = TOP;
  for (const { date, closed } of days) {
    const lists = mechanics.map((name) =>
      tasks.filter((task) => task.day === date && task.mechanic === name),
    );
    const deepest = Math.max(0, ...lists.map((list) => list.length));
    const height = closed !== null && deepest === 0 ? SHUT : Math.max(EMPTY, deepest * TASK + 14);
    parts.push(drawDay(date, closed, { top, height, locale, today: date === today }));
    lists.forEach((list, k) => {
      if (list.length === 0 && closed === null) {
        parts.push(textLine(left(k) + 12, top + 40, words.free, { size: 30, colour: FAINT_INK }));
      }
      list.forEach((task, n) => {
        const box = { x: left(k) + 6, y: top + 8 + n * TASK, width: column - 12, colour: colourOf(task.job) };
        parts.push(drawTask(task, words.hour, box));
      });
    });
    top += height;
  }
  const sheet = element('rect', { width: WIDTH, height: top + 24, fill: PAPER });
  return picture(WIDTH, top + 24, sheet + parts.join(''));
}

type DayStyle = { top: number; height: number; locale: string; today: boolean };

function drawDay(date: IsoDate, closed: string | null, { top, height, locale, today }: DayStyle): string {
  const name = DateTime.fromISO(date, { zone: 'utc', locale }).toFormat('ccc d');
  const ground =
    closed === null
      ? ''
      : element('rect', { x: MARGIN, y: top, width: WIDTH - 2 * MARGIN, height, fill: CLOSED });
  const tag = !today
    ? ''
    : element('rect', { x: MARGIN - 8, y: top + 8, width: DAY_WIDTH - 4, height: 44, rx: 8, fill: INK });
  const colour = today ? PAPER : closed === null ? INK : FAINT_INK;
  const baseline = top + (closed === null ? 42 : 33);
  return (
    ground +
    element('line', { x1: MARGIN, y1: top, x2: WIDTH - MARGIN, y2: top, stroke: RULE, 'stroke-width': 2 }) +
    tag +
    textLine(MARGIN + 2, baseline, name, { size: 32, colour, bold: true, edge: false }) +
    (closed === null
      ? ''
      : textLine(MARGIN + DAY_WIDTH + 12, baseline, closed, { size: 30, colour: FAINT_INK, edge: false }))
  );
}

type TaskBox = { x: number; y: number; width: number; colour: string };

function drawTask(task: FortnightTask, hour: string, { x, y, width, colour }: TaskBox): string {
  const hours = `${task.hours}${hour}`;
  const room = width - 34;
  return (
    element('rect', { x, y, width, height: TASK - 8, rx: 8, fill: colour, 'fill-opacity': 0.13 }) +
    element('rect', { x, y, width: 12, height: TASK - 8, rx: 4, fill: colour }) +
    textLine(x + 22, y + 33, fitted(task.task, 31, room), { size: 31, colour: INK, edge: false }) +
    textLine(x + 22, y + 67, fitted(task.job, 28, room - widthOf(hours, 28, true) - 10), {
      size: 28,
      colour: FAINT_INK,
      edge: false,
    }) +
    textLine(x + width - 12, y + 67, hours, { size: 28, colour: INK, bold: true, anchor: 'end', edge: false })
  );
}
