import type { ItemReading } from '../../hearing/reading.js';
import { mayHaveCome } from '../../hearing/returns.js';
import { resolve } from '../../job/resolve.js';
import type { JobState } from '../../job/state.js';
import { openLineOf } from '../../job/state.js';

/** 'The wheel bearings are in' says that they have come, where they were on order; where they were here, that they are fitted. */
export function arrivedOrFitted(item: ItemReading, state: JobState, text: string): ItemReading {
  if (!mayHaveCome(item, text)) return item;
  const { item: number, part, place } = item;
  const found = resolve(state, { item: number, part, called: null, place, count: null });
  const isOut = found.kind === 'found' && openLineOf(state, found.item.number) !== null;
  return isOut ? { ...item, act: 'back', outcome: 'all' } : item;
}

/** 'The front wheel is back' of two that went as one thing: a part of it is, until the last has come. */
export function someOfSeveral(item: ItemReading, state: JobState): ItemReading {
  const { act, outcome, item: number, part, place, count } = item;
  if (act !== 'back' || outcome !== 'all' || (place.length === 0 && count === null)) return item;
  const found = resolve(state, { item: number, part, called: null, place, count: null });
  if (found.kind !== 'found') return item;
  const own = found.item.place;
  const isNarrower =
    place.some((side) => !own.includes(side)) || (place.length > 0 && place.length < own.length);
  if (count === null && !isNarrower) return item;
  const line = openLineOf(state, found.item.number);
  const went = line?.count ?? found.item.count ?? 1;
  const came = count ?? 1;
  return line !== null && line.countBack + came < went ? { ...item, outcome: 'part', count: came } : item;
}
