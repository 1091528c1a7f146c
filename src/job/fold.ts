import type { RecordedJobEvent } from './evolve.js';
import { evolve } from './evolve.js';
import type { JobState } from './state.js';
import { NO_JOB } from './state.js';

/**
 * The job's state from the whole of its events. An undone message's events are passed over as if never said,
 * with two exceptions: an item that later talk built on stays on the list, and so does the job itself.
 */
export function foldJob(events: readonly RecordedJobEvent[]): JobState {
  const undoneBefore = new Map<string, number>();
  for (const event of events) {
    if (event.type === 'message-undone') undoneBefore.set(event.data.message, event.version);
  }
  const isUndone = (event: RecordedJobEvent): boolean =>
    event.message !== undefined && event.version < (undoneBefore.get(event.message) ?? 0);
  const itemsBuiltOn = new Set(events.filter((event) => !isUndone(event)).flatMap(itemsOf));
  const stays = (event: RecordedJobEvent): boolean =>
    event.type === 'job-opened' || (event.type === 'item-listed' && itemsBuiltOn.has(event.data.item));
  return events
    .flatMap((event) => (!isUndone(event) ? [event] : stays(event) ? [withoutMessage(event)] : []))
    .reduce(evolve, NO_JOB);
}

/** What stays of an undone message no longer belongs to it: there is nothing of it left to undo. */
function withoutMessage({ message: _undone, ...event }: RecordedJobEvent): RecordedJobEvent {
  return event;
}

function itemsOf(event: RecordedJobEvent): number[] {
  const { data } = event;
  if ('items' in data) return data.items;
  return 'item' in data && data.item !== null ? [data.item] : [];
}

/** Whether the event changes what earlier events mean, so that the state must be folded from the beginning. */
export function needsRefold(event: RecordedJobEvent): boolean {
  return event.type === 'message-undone';
}
