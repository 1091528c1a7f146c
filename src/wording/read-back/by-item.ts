import type { RecordedJobEvent } from '../../job/evolve.js';
import { awaitsYes } from '../../job/needs.js';
import type { Item, JobState } from '../../job/state.js';
import type { Told } from './told.js';
import { rulesOf } from './told.js';

/** Events by the item they are of, items in the order first spoken of. */
export function byItem({ state, events }: Pick<Told, 'state' | 'events'>): Map<number, RecordedJobEvent[]> {
  const found = new Map<number, RecordedJobEvent[]>();
  for (const event of events) {
    const number = itemOf(state, event);
    if (number !== null) found.set(number, [...(found.get(number) ?? []), event]);
  }
  return found;
}

function itemOf(state: JobState, event: RecordedJobEvent): number | null {
  if (event.type === 'fault-found' || event.type === 'caution-given') return null;
  if ('item' in event.data) return event.data.item;
  return 'line' in event.data ? (state.lines[event.data.line]?.item ?? null) : null;
}

/** Items of this message that wait for the owner's yes: those that do so only now, and those sent or ordered without it. */
export function itemsWantingYes(told: Told): Item[] {
  const { before, state } = told;
  const rules = rulesOf(told);
  return [...byItem(told)].flatMap(([number, events]) => {
    const item = state.items[number];
    if (!item || !awaitsYes(state, item, rules)) return [];
    const was = before.items[number];
    const wanted = was !== undefined && awaitsYes(before, was, rules);
    return !wanted || events.some(({ type }) => type === 'line-opened') ? [item] : [];
  });
}
