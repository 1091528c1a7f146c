import type { Process } from '../trade/terms.js';
import type { Item, JobState, Line } from './state.js';
import { linesOf, openLineOf } from './state.js';
import { isDone, outstanding, totalOf } from './work.js';

/** The shop's rule that decides when an owner must be asked. */
export type JobRules = {
  /** Work or parts that cost this much or more (major units) wait for the owner's yes; null: none does. */
  ownerYesFrom: number | null;
};

/** What an item still wants before it can be fitted, the nearest first; 'nothing' when it is ready or fitted. */
export type Need =
  | { kind: 'nothing' }
  | { kind: 'look' }
  | { kind: 'decide'; refused: boolean }
  | { kind: 'look-again' }
  | { kind: 'yes'; since: number; asked: boolean; talk: boolean }
  | { kind: 'work' }
  | { kind: 'order' }
  | { kind: 'send'; processes: Process[]; again: boolean }
  | { kind: 'out'; line: Line };

/**
 * Whether the owner must say yes to this item and has not. Asked-for answers count whatever the cost; a yes holds as far
 * as what the work was then said to cost, and a bill that comes with the finished work asks for no other.
 */
export function awaitsYes(state: JobState, item: Item, rules: JobRules): boolean {
  if (state.owner === null || item.fitted) return false;
  const { agreement } = item;
  if (agreement.status === 'asked' || agreement.status === 'talk') return true;
  if (agreement.status === 'no') return false;
  const total = totalOf(item);
  if (total === null || !costsMoney(item)) return false;
  if (rules.ownerYesFrom === null || total < rules.ownerYesFrom) return false;
  if (agreement.status === 'not-asked') return true;
  return !isDone(item) && (agreement.upTo === null || total > agreement.upTo);
}

function costsMoney(item: Item): boolean {
  return item.remedy !== null && item.remedy !== 'keep' && item.remedy !== 'check';
}

/** The item's nearest need. */
export function needOf(state: JobState, item: Item, rules: JobRules): Need {
  const line = openLineOf(state, item.number);
  if (line) return { kind: 'out', line };
  if (item.fitted) return { kind: 'nothing' };
  if (item.remedy === null) return { kind: item.findings.length > 0 ? 'decide' : 'look', refused: false };
  if (item.remedy === 'check') return { kind: 'look-again' };
  if (item.agreement.status === 'no') return { kind: 'decide', refused: true };
  if (isDone(item)) return { kind: 'nothing' };
  if (awaitsYes(state, item, rules)) return yesNeed(item);
  return workNeed(state, item);
}

function yesNeed(item: Item): Need {
  const { agreement } = item;
  const asked = agreement.status === 'asked' || agreement.status === 'talk';
  const since = asked ? agreement.at : (item.decidedAt ?? item.listedAt);
  return { kind: 'yes', since, asked, talk: agreement.status === 'talk' };
}

function workNeed(state: JobState, item: Item): Need {
  if (item.remedy === 'replace') return { kind: 'order' };
  if (item.remedy !== 'send-out') return { kind: 'work' };
  return { kind: 'send', processes: outstanding(item), again: wasRefused(state, item) };
}

function wasRefused(state: JobState, item: Item): boolean {
  return linesOf(state, item.number).at(-1)?.status === 'refused';
}
