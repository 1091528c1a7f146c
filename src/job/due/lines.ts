import { addWorkingDays, dateAt, nextWorkingDay, startOfWork } from '../../plan/calendar.js';
import type { WorkingCalendar } from '../../plan/calendar.js';
import { dayNumber } from '../../plan/days.js';
import type { JobState, Line, LinePromise } from '../state.js';
import { isOut, promiseOf } from '../state.js';
import type { Due, DueContext } from './due.js';

type SupplierDue = Extract<Due, { kind: 'supplier' }>;

/** The steps still to come of the ladder of messages about each line that is out with a supplier who is in the chat. */
export function lineDues(state: JobState, context: DueContext): Due[] {
  return Object.values(state.lines).flatMap((line) => {
    const promise = promiseOf(line);
    if (!isOut(line) || promise === null || line.supplier === null || !context.isLinked(line.supplier)) return [];
    return ladder(line, line.supplier, promise, context);
  });
}

/**
 * Before the day a check, after it a chaser, then one more counted from when the first went. An answer stops the
 * ladder; a new date starts one of its own, since the step's id holds the number of promises made.
 */
function ladder(line: Line, supplier: string, promise: LinePromise, context: DueContext): Due[] {
  const calendar = context.calendarOf(supplier);
  const due = (step: SupplierDue['step'], at: number): SupplierDue => ({
    id: `${context.job}~${line.id}~${line.promises.length}~${step}`,
    at,
    kind: 'supplier',
    supplier,
    line: line.id,
    step,
  });
  const { supplier: policy } = context.policy;
  const chaseOn = addWorkingDays(calendar, nextWorkingDay(calendar, promise.due), policy.chaseAfter - 1);
  const chase = due('chase', startOfWork(calendar, chaseOn));
  const chased = context.spokenOf(chase.id);
  const steps = chased === null ? [check(line, promise, calendar, context, due), chase] : [again(chased, calendar, context, due)];
  return steps.filter(
    (step): step is SupplierDue =>
      step !== null && context.spokenOf(step.id) === null && !answeredSince(line, promise, context, step),
  );
}

type MakeDue = (step: SupplierDue['step'], at: number) => SupplierDue;

function check(
  line: Line,
  promise: LinePromise,
  calendar: WorkingCalendar,
  { policy: { supplier } }: DueContext,
  due: MakeDue,
): SupplierDue | null {
  const lead = dayNumber(promise.due) - dayNumber(line.promises.length > 1 ? promise.on : line.openedOn);
  if (lead <= supplier.checkWhereLeadOver) return null;
  return due('check', startOfWork(calendar, addWorkingDays(calendar, promise.due, -supplier.checkBefore, 'backward')));
}

function again(chased: number, calendar: WorkingCalendar, { policy }: DueContext, due: MakeDue): SupplierDue {
  const chasedOn = dateAt(calendar, chased);
  return due('chase-again', startOfWork(calendar, addWorkingDays(calendar, chasedOn, policy.supplier.chaseAgainAfter)));
}

/** An answer since the promise was made stops what would have been said after it; one before the check stops the check alone. */
function answeredSince(line: Line, promise: LinePromise, context: DueContext, step: SupplierDue): boolean {
  if (line.answeredAt === null) return false;
  const calendar = context.calendarOf(step.supplier);
  const answeredOn = dateAt(calendar, line.answeredAt);
  if (answeredOn < promise.on) return false;
  return step.step === 'check' ? line.answeredAt > line.openedAt : answeredOn >= promise.due;
}
