import type { Item, JobState } from '../../../src/job/state.js';
import type { Place } from '../../../src/trade/terms.js';

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
