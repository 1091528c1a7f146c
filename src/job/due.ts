import type { Due, DueContext } from './due/due.js';
import { lineDues } from './due/lines.js';
import { ownerDues } from './due/owner.js';
import { nextTryAt } from './due/retry.js';
import { wantedDues } from './due/shop.js';
import type { JobState } from './state.js';

export type { Due, DueContext } from './due/due.js';

/** All that should be said about a job, past instants and coming ones, and has not been; earliest first. */
export function due(state: JobState, context: DueContext): Due[] {
  if (state.status === 'none') return [];
  const dues = [...lineDues(state, context), ...ownerDues(state, context)];
  const wanted = state.status === 'open' ? wantedDues(state, context) : [];
  return [...dues, ...wanted].sort((a, b) => a.at - b.at);
}

/** When the job is next due, ms, or null when nothing is to come. */
export function nextDueAt(state: JobState, context: DueContext): number | null {
  return due(state, context)[0]?.at ?? null;
}

/** The same after all that was due by `now` has been tried: what could not be said then comes when it next can. */
export function nextDueAfter(state: JobState, context: DueContext, now: number): number | null {
  const times = due(state, context).map((each) => (each.at > now ? each.at : nextTryAt(each, context, now)));
  return times.length > 0 ? Math.min(...times) : null;
}
