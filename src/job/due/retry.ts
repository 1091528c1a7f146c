import { dateAt, isWithinHours, nextOpening, nextWorkingDay, startOfWork } from '../../plan/calendar.js';
import type { Due, DueContext } from './due.js';
import { nextOwnerHour } from './owner.js';

const HOUR_MS = 3_600_000;

/**
 * When a thing that was due and could not be said at `now` is tried again, ms: a supplier's at their next opening, or
 * on their next working day where they were open and had the day's one message; an owner's when they may be written to.
 */
export function nextTryAt(due: Due, context: DueContext, now: number): number {
  switch (due.kind) {
    case 'supplier': {
      const calendar = context.calendarOf(due.supplier);
      return isWithinHours(calendar, now)
        ? startOfWork(calendar, nextWorkingDay(calendar, dateAt(calendar, now)))
        : nextOpening(calendar, now);
    }
    case 'notice':
    case 'yes-asked': {
      const next = nextOwnerHour(context.policy, now);
      return next > now ? next : now + HOUR_MS;
    }
    case 'silence':
    case 'nudge':
      return now + HOUR_MS;
  }
}
