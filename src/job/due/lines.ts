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
    if (!isOut(line) || promise === null || line.supplier === null || !context.isLinked(line.supplier))
      return [];
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
    id: ladderId(context.job, line, step),
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
  const steps =
    chased === null
      ? [check(line, promise, calendar, context, due), chase]
      : [again(chased, calendar, context, due)];
  return steps.filter(
    (step): step is SupplierDue =>
      step !== null && context.spokenOf(step.id) === null && !answerStops(line, step.step, calendar),
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
  const on = addWorkingDays(calendar, promise.due, -supplier.checkBefore, 'backward');
  // Their closed weeks may put the day for it before the day the promise was made.
  return on > promise.on ? due('check', startOfWork(calendar, on)) : null;
}

function again(chased: number, calendar: WorkingCalendar, { policy }: DueContext, due: MakeDue): SupplierDue {
  const chasedOn = dateAt(calendar, chased);
  return due(
    'chase-again',
    startOfWork(calendar, addWorkingDays(calendar, chasedOn, policy.supplier.chaseAgainAfter)),
  );
}

/**
 * Whether what the supplier wrote since the promise stops a step: any word stops the check, and a word on or after
 * the promised day, or that it is ready, stops the chasing.
 */
export function answerStops(line: Line, step: SupplierDue['step'], calendar: WorkingCalendar): boolean {
  const promise = promiseOf(line);
  if (promise === null || line.answeredAt === null || line.answeredAt <= promise.at) return false;
  const isReady = line.readyAt !== null && line.readyAt > promise.at;
  return step === 'check' || isReady || dateAt(calendar, line.answeredAt) >= promise.due;
}

/** The step's id: a new promise on the line starts a ladder of its own. */
export function ladderId(job: string, line: Line, step: SupplierDue['step']): string {
  return `${job}~${line.id}~${line.promises.length}~${step}`;
}
