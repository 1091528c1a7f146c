import type { Item, JobState } from '../../../src/job/state.js';
import type { Recorded } from '../../../src/record/types.js';
import type { Place } from '../../../src/trade/terms.js';
import { itemsCalled } from '../standing.js';

/** A finding that was put right: the side meant, and the one said first. */
export type Meant = { part: string; meant: Place; not: Place };

/** What was put right stands as it was meant, once, and nothing stands as it was said first. */
export function notPutRight({ title, items }: JobState, { part, meant, not }: Meant): string[] {
  const of = (place: Place): Item[] =>
    Object.values(items).filter((item) => item.part === part && item.place.includes(place));
  const right = of(meant).length;
  const wrong = of(not).length;
  return right === 1 && wrong === 0
    ? []
    : [`${title}: the ${meant} ${part} was meant and stands ${right} times; the ${not} one ${wrong} times`];
}

/** What was said by mistake and taken back is undone, once, and nothing of it stands. */
export function notTakenBack(
  state: JobState,
  events: readonly Pick<Recorded, 'type' | 'data'>[],
  { part, message }: { part: string; message: string },
): string[] {
  const undone = events.filter(
    ({ type, data }) => type === 'message-undone' && (data as { message: string }).message === message,
  ).length;
  const standing = itemsCalled(state, part).length;
  return undone === 1 && standing === 0
    ? []
    : [`${state.title}: the ${part} was taken back, undone ${undone} times, and stands ${standing} times`];
}
