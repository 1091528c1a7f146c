import { DateTime } from 'luxon';
import { dateOfDay, dayNumber, isoWeekday, type DayNumber, type IsoDate } from '../days.js';
import { element, round, textLine } from './svg.js';
import { FAINT_INK, RULE } from './colours.js';

/** A stretch of days laid along x. A day takes the width from its own x to that of the next. */
export type TimeAxis = {
  first: DayNumber;
  last: DayNumber;
  /** Where a date begins, cut to the axis. */
  x(date: IsoDate): number;
  /** Where a date ends. */
  end(date: IsoDate): number;
};

export function timeAxis(first: IsoDate, last: IsoDate, left: number, right: number): TimeAxis {
  const from = dayNumber(first);
  const until = Math.max(from + 1, dayNumber(last) + 1);
  const place = (day: DayNumber): number =>
    round(left + ((Math.max(from, Math.min(until, day)) - from) / (until - from)) * (right - left));
  return {
    first: from,
    last: until - 1,
    x: (date) => place(dayNumber(date)),
    end: (date) => place(dayNumber(date) + 1),
  };
}

/** Labelled marks at most six or so: Mondays while the stretch is short, else first days of months. */
export function axisMarks(axis: TimeAxis, locale: string): { date: IsoDate; label: string }[] {
  const days = axis.last - axis.first + 1;
  const all = Array.from({ length: days }, (_, k) => axis.first + k);
  if (days <= 75) {
    const mondays = all.filter((day) => isoWeekday(day) === 1);
    const step = Math.ceil(mondays.length / 6);
    return mondays.filter((_, k) => k % step === 0).map((day) => mark(day, 'd LLL', locale));
  }
  const months = all.filter((day) => dateOfDay(day).endsWith('-01'));
  const step = Math.ceil(months.length / 7);
  return months.filter((_, k) => k % step === 0).map((day) => mark(day, 'LLL', locale));
}

/** The marks drawn: a rule down to `bottom`, and its label over it. */
export function drawAxis(axis: TimeAxis, locale: string, top: number, bottom: number, size: number): string {
  return axisMarks(axis, locale)
    .map(({ date, label }) => {
      const x = axis.x(date);
      return (
        element('line', { x1: x, y1: top + 8, x2: x, y2: bottom, stroke: RULE, 'stroke-width': 2 }) +
        textLine(x + 6, top, label, { size, colour: FAINT_INK })
      );
    })
    .join('');
}

function mark(day: DayNumber, format: string, locale: string): { date: IsoDate; label: string } {
  const date = dateOfDay(day);
  return { date, label: DateTime.fromISO(date, { zone: 'utc', locale }).toFormat(format) };
}
