import type { Place } from '../terms.js';

/** What ties items to a step; a step of a template and a step of a job both have it. */
export type Tie = {
  readonly id: string;
  readonly parts: readonly string[];
  readonly groups: readonly string[];
  readonly place?: Place | null | undefined;
};

export type TiedPart = {
  /** Canonical name in the lexicon; null where the item has none. */
  readonly name: string | null;
  readonly group: string | null;
  readonly place: readonly Place[];
};

const forPlace = (steps: readonly Tie[], places: readonly Place[]): Tie | undefined =>
  steps.find((step) => step.place != null && places.includes(step.place)) ??
  steps.find((step) => step.place == null) ??
  steps[0];

/**
 * The id of the step that fits a part: the step that names it, else the one that takes the rest of its group. Of
 * several, the one for the part's place, else one for no place, else the first. Null where no step wants it.
 */
export const stepFor = (order: { readonly steps: readonly Tie[] }, part: TiedPart): string | null => {
  const { name, group } = part;
  const naming = name === null ? [] : order.steps.filter((step) => step.parts.includes(name));
  const grouping = group === null ? [] : order.steps.filter((step) => step.groups.includes(group));
  return (forPlace(naming, part.place) ?? forPlace(grouping, part.place))?.id ?? null;
};
