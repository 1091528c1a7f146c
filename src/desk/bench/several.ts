import type { Cost, ItemReading } from '../../hearing/reading.js';
import { resolve } from '../../job/resolve.js';
import type { JobState } from '../../job/state.js';

/** 'Both mudguards', where front and rear are on the list each by itself, says the same of each. */
export function eachMeant(item: ItemReading, state: JobState): ItemReading[] {
  const { part, place, count } = item;
  if (item.item !== null || part === null || count === null || count < 2) return [item];
  const found = resolve(state, { item: null, part, called: null, place, count });
  if (found.kind !== 'several' || found.items.length !== count) return [item];
  return found.items.map(({ number, place: theirs }) => ({
    ...item,
    item: number,
    place: theirs,
    count: null,
    cost: shareOf(item.cost, count),
  }));
}

/** A price for the lot is shared out among the things it is for. */
function shareOf(cost: Cost | null, count: number): Cost | null {
  return cost === null || cost.each ? cost : { ...cost, amount: cost.amount / count };
}
