import type { ItemReading } from '../../hearing/reading.js';
import { resolve } from '../../job/resolve.js';
import type { JobState } from '../../job/state.js';
import { openLineOf } from '../../job/state.js';

const ARE_IN = /\b(?:is|are|both|all|[a-z]+'s|came|come) in\b/i;
const FITTED = /\b(?:fitted|bolted|torqued|tightened|pressed|screwed|built)\b/i;

/** 'The wheel bearings are in' says that they have come, where they were on order; where they were here, that they are fitted. */
export function arrivedOrFitted(item: ItemReading, state: JobState, text: string): ItemReading {
  if (item.act !== 'fitted' || !ARE_IN.test(text) || FITTED.test(text)) return item;
  const { item: number, part, place } = item;
  const found = resolve(state, { item: number, part, called: null, place, count: null });
  const isOut = found.kind === 'found' && openLineOf(state, found.item.number) !== null;
  return isOut ? { ...item, act: 'back', outcome: 'all' } : item;
}
