import { DateTime } from 'luxon';
import type { GateReport, JobReport, LineReport, Report } from '../report.js';
import { ZONE } from '../shop-time.js';
import type { Palette } from './palette.js';
import { wrap } from './wrap.js';

/** The folder that holds everything, and the paths of the plan's pictures. */
export type Kept = { folder: string; drawn: readonly string[] };

/** What was recorded, as lines to print. */
export function summaryLines(report: Report, kept: Kept, palette: Palette, width: number): string[] {
  const body = (text: string): string[] => wrap(text, width - 2).map((line) => `  ${line.text}`);
  const missed = Object.keys(report.notSent).length;
  return [
    '',
    palette.day('What was recorded'),
    ...report.jobs.flatMap((job) => jobLines(job, palette, body)),
    '',
    palette.bold('Messages that went by themselves'),
    ...body(counted(report.sent)),
    ...body(`to suppliers, by matter: ${counted(report.supplierSteps)}`),
    ...(missed > 0 ? body(`not sent: ${counted(report.notSent)}`) : []),
    '',
    palette.bold('Beside the jobs'),
    ...body(counted(report.others)),
    ...body(
      `photos and voice notes kept: ${report.photos}, ${Math.ceil(report.fileBytes / 1024)} kB (the same picture sent twice is kept once)`,
    ),
    '',
    ...(kept.drawn.length > 0 ? ['The plan as it was drawn on the way:'] : []),
    ...kept.drawn.map((path) => `  ${path}`),
    `All of it, photos and logs too, is in ${kept.folder}`,
    palette.faint('It is yours to look at, and to delete.'),
  ];
}

function jobLines(job: JobReport, palette: Palette, body: (text: string) => string[]): string[] {
  const total = Object.values(job.events).reduce((sum, count) => sum + count, 0);
  const lines =
    job.lines.length > 0
      ? ['', '  Sent out and ordered', ...table([LINE_HEADS, ...job.lines.map(lineCells)])]
      : [];
  return [
    '',
    palette.bold(job.title),
    ...body(
      `${job.status}, ${job.items} things on its list, ${total} events, £${job.cost} of work and parts`,
    ),
    ...body(counted(job.events)),
    '',
    '  Gates',
    ...table(job.gates.map(gateCells)),
    ...lines,
  ];
}

function gateCells({ gate, passedAt, reopenedAt, isPassed }: GateReport): string[] {
  const passed = passedAt.map(dayOf).join(', ');
  const reopened = reopenedAt.length > 0 ? `reopened ${reopenedAt.map(dayOf).join(', ')}` : '';
  return [
    gate,
    isPassed ? `passed ${passed}` : `open${passed === '' ? '' : ` (passed ${passed})`}`,
    reopened,
  ];
}

const LINE_HEADS = ['thing', 'sent', 'to', 'promised for', 'back'];

function lineCells({
  item,
  part,
  kind,
  supplier,
  openedOn,
  promised,
  returnedOn,
  status,
}: LineReport): string[] {
  const back = returnedOn === null ? 'not yet' : short(returnedOn);
  return [
    `${item} ${part}`,
    `${short(openedOn)}${kind === 'order' ? ' (order)' : ''}`,
    supplier,
    promised.length > 0 ? promised.map(short).join(', then ') : 'no day',
    status === 'refused' ? `${back}, refused` : back,
  ];
}

function table(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? '').length)),
  );
  return rows.map((row) =>
    `    ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd(),
  );
}

function counted(counts: Readonly<Record<string, number>>): string {
  const entries = Object.entries(counts).sort(([, a], [, b]) => b - a);
  return entries.length > 0 ? entries.map(([name, count]) => `${name} ${count}`).join(', ') : 'none';
}

const dayOf = (at: number): string => DateTime.fromMillis(at, { zone: ZONE }).toFormat('d LLL');
const short = (day: string): string => DateTime.fromISO(day).toFormat('d LLL');
