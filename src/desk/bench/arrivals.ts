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
