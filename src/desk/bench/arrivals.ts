import type { ItemReading } from '../../hearing/reading.js';
import { resolve } from '../../job/resolve.js';
import type { JobState } from '../../job/state.js';
import { openLineOf } from '../../job/state.js';

const ARE_IN = /\b(?:is|are|both|all|[a-z]+'s|came|come) in\b/i;
const FITTED = /\b(?:fitted|bolted|torqued|tightened|pressed|screwed|built)\b/i;

const UNDONE =
  /\b(?:undone|untouched|not done|not been done|nothing done|un(?:painted|plated|chromed|polished)|(?:won['’]?t|wouldn['’]?t|can['’]?t|couldn['’]?t|refused to|unable to) (?:do|take|touch|manage))\b/i;

/** What a supplier hands back without having done it counts as refused: the work on it is still to be done. */
export function handedBackUndone(item: ItemReading, text: string): ItemReading {
  const isWhole = item.act === 'back' && item.outcome !== 'part';
  return isWhole && UNDONE.test(text) ? { ...item, outcome: 'refused' } : item;
}

/** 'The wheel bearings are in' says that they have come, where they were on order; where they were here, that they are fitted. */
export function arrivedOrFitted(item: ItemReading, state: JobState, text: string): ItemReading {
  if (item.act !== 'fitted' || !ARE_IN.test(text) || FITTED.test(text)) return item;
  const { item: number, part, place } = item;
  const found = resolve(state, { item: number, part, called: null, place, count: null });
  const isOut = found.kind === 'found' && openLineOf(state, found.item.number) !== null;
  return isOut ? { ...item, act: 'back', outcome: 'all' } : item;
}
