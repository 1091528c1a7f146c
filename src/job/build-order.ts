import type { Item, JobState, Step } from './state.js';
import { stepForItem } from './template.js';

/** The build order with each item tied to the step that fits it, and the items that no step names. */
export type Build = {
  /** Steps in an order in which they can be fitted. */
  steps: readonly Step[];
  itemsOf: ReadonlyMap<string, readonly Item[]>;
  loose: readonly Item[];
};

export function buildOf(state: JobState): Build {
  const itemsOf = new Map<string, Item[]>();
  const loose: Item[] = [];
  for (const item of Object.values(state.items)) {
    const step = stepForItem(state.steps, item);
    if (step === null) loose.push(item);
    else itemsOf.set(step, [...(itemsOf.get(step) ?? []), item]);
  }
  return { steps: inOrder(state.steps), itemsOf, loose };
}

/** Steps sorted so that each comes after those it waits for, otherwise in the order given. A loop's steps come last. */
export function inOrder(steps: readonly Step[]): Step[] {
  const known = new Set(steps.map((step) => step.id));
  const placed = new Set<string>();
  const sorted: Step[] = [];
  let waiting = [...steps];
  for (;;) {
    const isFree = (step: Step): boolean => step.after.every((id) => placed.has(id) || !known.has(id));
    const next = waiting.find(isFree);
    if (!next) return [...sorted, ...waiting];
    sorted.push(next);
    placed.add(next.id);
    waiting = waiting.filter((step) => step !== next);
  }
}

/** The ids of a loop that adding 'step after other' would close, from `other` round to `step`; null when it closes none. */
export function loopClosedBy(steps: readonly Step[], step: string, after: string): string[] | null {
  const byId = new Map(steps.map((each) => [each.id, each]));
  const path: string[] = [];
  const seen = new Set<string>();
  const reaches = (id: string): boolean => {
    if (id === step) return true;
    if (seen.has(id)) return false;
    seen.add(id);
    const found = (byId.get(id)?.after ?? []).some(reaches);
    if (found) path.unshift(id);
    return found;
  };
  return reaches(after) ? [...path, step] : null;
}

/** How many steps wait, directly or through others, for this one. */
export function waitingFor(steps: readonly Step[], id: string): number {
  const held = new Set([id]);
  for (const step of inOrder(steps)) {
    if (!step.fitted && step.after.some((before) => held.has(before))) held.add(step.id);
  }
  return held.size - 1;
}
