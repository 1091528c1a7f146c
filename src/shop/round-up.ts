import { waitingFor } from '../job/build-order.js';
import type { Line, JobState } from '../job/state.js';
import { isOut, promiseOf } from '../job/state.js';
import { stepForItem } from '../job/template.js';
import type { WorkingCalendar } from '../plan/calendar.js';
import { addWorkingDays, dateAt } from '../plan/calendar.js';
import type { Policy } from './policy.js';

export type RoundUpLine = {
  job: string;
  line: Line;
  /** How many build steps wait for its item. */
  holdsUp: number;
};

/** What a mechanic should know of a morning, over all open jobs. */
export type RoundUp = {
  /** From the first working day after the promise was missed; those that hold up most come first. */
  overdue: RoundUpLine[];
  dueToday: RoundUpLine[];
  /** Out so long without any promise that one should be asked for. */
  unpromised: RoundUpLine[];
  /** Asked of owners and not answered for as long as owners are left in peace, by job. */
  unanswered: { job: string; items: number[]; since: number }[];
  isEmpty: boolean;
};

type OpenJob = { id: string; state: JobState };

/** The round-up of one morning. */
export function roundUp(
  jobs: readonly OpenJob[],
  today: string,
  calendar: WorkingCalendar,
  policy: Policy,
): RoundUp {
  const lines = jobs.flatMap(linesOut);
  const overdue = lines.filter(({ line }) => isOverdue(line, today)).sort((a, b) => b.holdsUp - a.holdsUp);
  const dueToday = lines.filter(({ line }) => promiseOf(line)?.due === today);
  const unpromised = lines.filter(({ line }) =>
    isUnpromised(line, today, calendar, policy.mechanic.askPromiseAfter),
  );
  const unanswered = jobs.flatMap((job) => unansweredOf(job, today, calendar));
  const isEmpty = [overdue, dueToday, unpromised, unanswered].every((list) => list.length === 0);
  return { overdue, dueToday, unpromised, unanswered, isEmpty };
}

function linesOut({ id, state }: OpenJob): RoundUpLine[] {
  return Object.values(state.lines)
    .filter(isOut)
    .map((line) => ({ job: id, line, holdsUp: stepsHeldBy(state, line) }));
}

function stepsHeldBy(state: JobState, line: Line): number {
  const item = state.items[line.item];
  const step = item ? stepForItem(state.steps, item) : null;
  return step === null ? 0 : 1 + waitingFor(state.steps, step);
}

export function isOverdue(line: Line, today: string): boolean {
  const promise = promiseOf(line);
  return isOut(line) && promise !== null && promise.due < today;
}

function isUnpromised(line: Line, today: string, calendar: WorkingCalendar, after: number): boolean {
  return promiseOf(line) === null && addWorkingDays(calendar, line.openedOn, after) <= today;
}

/** Owners are given five working days before a mechanic is told that they have not answered. */
const OWNER_DAYS = 5;

function unansweredOf(
  { id, state }: OpenJob,
  today: string,
  calendar: WorkingCalendar,
): RoundUp['unanswered'] {
  const waiting = Object.values(state.items).flatMap((item) =>
    item.agreement.status === 'asked' ? [{ number: item.number, at: item.agreement.at }] : [],
  );
  const late = waiting.filter(
    ({ at }) => addWorkingDays(calendar, dateAt(calendar, at), OWNER_DAYS) <= today,
  );
  const [first] = late;
  return first ? [{ job: id, items: late.map(({ number }) => number), since: first.at }] : [];
}
