import type { Place } from '../trade/terms.js';
import type { Target } from './commands.js';
import type { Item, JobState } from './state.js';

export type Resolved =
  | { kind: 'found'; item: Item }
  /** All of several are meant: 'both' of a left and a right one, 'all four' of four. */
  | { kind: 'each'; items: Item[] }
  | { kind: 'several'; items: Item[] }
  /** Not on the strip list yet, and named well enough to be listed. */
  | { kind: 'new' }
  | { kind: 'no-such-item'; item: number }
  | { kind: 'nothing-named' };

/** The item on the strip list that a target means. */
export function resolve(state: JobState, target: Target): Resolved {
  if (target.item !== null) {
    const item = state.items[target.item];
    return item ? { kind: 'found', item } : { kind: 'no-such-item', item: target.item };
  }
  if (target.part === null && target.called === null) return { kind: 'nothing-named' };
  if (target.part === null) return { kind: 'new' };
  return pick(
    Object.values(state.items).filter((item) => fits(item, target)),
    target,
  );
}

function pick(candidates: Item[], target: Target): Resolved {
  if (candidates.length === 0) return { kind: 'new' };
  const exact = candidates.filter((item) => sameSet(item.place, target.place));
  const best = exact.length > 0 ? exact : candidates;
  const [first, ...others] = best;
  if (first && others.length === 0) return { kind: 'found', item: first };
  return { kind: isAllOf(best, target) ? 'each' : 'several', items: best };
}

/** 'Left and right' covers a left one and a right one; so does a count of two, where there are two. */
function isAllOf(items: readonly Item[], { place, count }: Target): boolean {
  const pieces = items.reduce((sum, item) => sum + (item.count ?? 1), 0);
  if (count !== null && (count === pieces || count === items.length)) return true;
  return place.length > 1 && items.every((item) => item.place.length > 0 && item.place.length < place.length);
}

/** A place said must not contradict the item's: 'left' fits left, left and right, or no place said; never right alone. */
function fits(item: Item, target: Target): boolean {
  if (item.part !== target.part) return false;
  if (item.place.length === 0 || target.place.length === 0) return true;
  return (
    target.place.every((place) => item.place.includes(place)) ||
    item.place.every((place) => target.place.includes(place))
  );
}

function sameSet(some: readonly Place[], others: readonly Place[]): boolean {
  return some.length === others.length && some.every((place) => others.includes(place));
}

/** The number the next item on the list gets. */
export function nextNumber(state: JobState): number {
  return Math.max(0, ...Object.keys(state.items).map(Number)) + 1;
}
