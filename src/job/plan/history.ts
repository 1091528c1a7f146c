import type { WorkingCalendar } from '../../plan/calendar.js';
import { workingDaysBetween } from '../../plan/calendar.js';
import type { PastJob } from '../../plan/lead-times/learn.js';
import type { JobState, Line } from '../state.js';
import { isOut } from '../state.js';

/** What parts bought are counted under, beside the processes of work sent out. */
export const PARTS = 'parts';

/** The process a line is learnt from and forecast by: the first of several, since they go as one. */
export function processOf(line: Pick<Line, 'kind' | 'processes'>): string {
  return line.kind === 'order' ? PARTS : (line.processes[0] ?? 'other');
}

/** Every line of the shop's jobs, done and still out, as lead times are learnt from it. Nobody is learnt from without a name. */
export function pastJobs(
  jobs: readonly JobState[],
  calendarOf: (supplier: string) => WorkingCalendar,
  today: string,
): PastJob[] {
  return jobs.flatMap((job) =>
    Object.values(job.lines).flatMap((line) =>
      line.supplier === null ? [] : [pastJob(line, line.supplier, calendarOf(line.supplier), today)],
    ),
  );
}

function pastJob(line: Line, supplier: string, calendar: WorkingCalendar, today: string): PastJob {
  const since = (date: string): number => workingDaysBetween(calendar, line.openedOn, date);
  const back = !isOut(line);
  return {
    supplier,
    process: processOf(line),
    days: Math.max(0, since(back ? (line.returnedOn ?? today) : today)),
    back,
    promises: line.promises.map(({ on, due }) => ({ given: since(on), due: since(due) })),
  };
}
