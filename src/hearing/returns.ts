import type { ItemReading } from './reading.js';

const UNDONE =
  /\b(?:undone|untouched|not (?:been )?(?:done|touched|started)|nothing done|un(?:painted|plated|chromed|polished)|(?:has|have|had|was|were)n['’]?t (?:been )?(?:done|touched|started)|without (?:doing|touching)|(?:won['’]?t|wouldn['’]?t|can['’]?t|couldn['’]?t|didn['’]?t|refused to|unable to) (?:do|take|touch|manage)(?: (?:it|them|that|this|the job|the work))?(?=\s*(?:[.,;:!?–-]|$|and\b|so\b|he\b|she\b|they\b)))/i;

/** Praise of what came back: a word of what could not be done is of a spot on it. */
const PRAISED = /\b(?:lovely|beautiful|superb|perfect|spot on|(?:great|nice|good) job)\b/i;

/** What a supplier hands back without having done it counts as refused: the work on it is still to be done. */
export function handedBackUndone(item: ItemReading, text: string): ItemReading {
  const isWhole = item.act === 'back' && item.outcome !== 'part';
  return isWhole && UNDONE.test(text) && !PRAISED.test(text) ? { ...item, outcome: 'refused' } : item;
}

const ARE_IN = /\b(?:is|are|both|all|[a-z]+['’]s|came|come) in\b/i;
const FITTED = /\b(?:fitted|bolted|torqued|tightened|pressed|screwed|built)\b/i;

/** 'The wheel bearings are in': they have come, or they are fitted; which, only what was on order tells. */
export const mayHaveCome = (item: ItemReading, text: string): boolean =>
  item.act === 'fitted' && ARE_IN.test(text) && !FITTED.test(text);
