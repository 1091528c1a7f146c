import { buildOrders, isTemplate } from '../trade/build-orders/load.js';
import { stepFor } from '../trade/build-orders/step-for.js';
import { checksOf } from '../trade/setting-up/load.js';
import type { Check, Item, Step } from './state.js';

/** The steps a job of this template starts with; a template that no longer ships gives none. */
export function stepsOf(template: string): Step[] {
  if (!isTemplate(template)) return [];
  return buildOrders[template].steps.map((step) => ({
    id: step.id,
    name: { kind: 'template', text: step.name },
    parts: step.parts,
    groups: step.groups,
    place: step.place ?? null,
    after: step.after,
    hours: step.hours,
    watch: step.watch ?? null,
    waits: step.waits.map((wait) => ({ days: wait.days, for: wait.for, after: wait.after ?? null })),
    fitted: false,
    fittedAt: null,
  }));
}

/** The setting-up checks a machine of this template wants before it is ridden. */
export function setUpOf(template: string): Check[] {
  if (!isTemplate(template)) return [];
  return checksOf(template).map(({ id, name }) => ({ id, name, doneAt: null }));
}

/** The step that fits an item, by its part, else by its group; null where no step wants it. */
export function stepForItem(
  steps: readonly Step[],
  item: Pick<Item, 'part' | 'group' | 'place'>,
): string | null {
  return stepFor({ steps }, { name: item.part, group: item.group, place: item.place });
}
