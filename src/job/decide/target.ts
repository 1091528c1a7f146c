import { lexicon } from '../../trade/lexicon/load.js';
import type { Refusal, Target } from '../commands.js';
import { event } from '../events.js';
import { nextNumber, resolve } from '../resolve.js';
import type { Item, JobState } from '../state.js';
import type { Bench, Draft } from './draft.js';
import { add } from './draft.js';

export type Targeted = { draft: Draft; item: Item } | { refusal: Refusal };

/** Finds the item on the list, or lists it; a place said for the first time is added to the item. */
export function targetItem(draft: Draft, target: Target, bench: Bench): Targeted {
  const found = resolve(draft.state, target);
  switch (found.kind) {
    case 'found':
      return sharpen(draft, found.item, target, bench);
    case 'each':
    case 'several':
      return { refusal: { why: 'which-item', candidates: found.items.map((item) => item.number) } };
    case 'no-such-item':
      return { refusal: { why: 'no-such-item', item: found.item } };
    case 'nothing-named':
      return { refusal: { why: 'nothing-named' } };
    case 'new':
      return list(draft, target, bench);
  }
}

/** A side said of one piece of several is that piece's, not the item's. */
function sharpen(draft: Draft, item: Item, target: Target, bench: Bench): Targeted {
  const isWhole = item.count === null || item.count === 1 || item.count === target.count;
  const isNew = item.place.length === 0 && target.place.length > 0;
  const place = isNew && isWhole ? target.place : item.place;
  const count = item.count ?? countOf(target);
  if (place === item.place && count === item.count) return { draft, item };
  const correction = event('item-corrected', {
    item: item.number,
    part: item.part,
    group: item.group,
    place,
    count,
  });
  const sharper = add(draft, bench, correction);
  return { draft: sharper, item: sharper.state.items[item.number] ?? item };
}

function list(draft: Draft, target: Target, bench: Bench): Targeted {
  const number = nextNumber(draft.state);
  const listing = event('item-listed', {
    item: number,
    part: target.part,
    called: target.part === null ? target.called : null,
    group: groupOf(target.part),
    place: target.place,
    count: countOf(target),
  });
  const listed = add(draft, bench, listing);
  const item = listed.state.items[number];
  if (!item) throw new Error(`item ${number} was listed and is not there`);
  return { draft: listed, item };
}

export function groupOf(part: string | null): string | null {
  return part === null ? null : (lexicon.byName(part)?.group ?? null);
}

/** How many were said, where that is a number of things. */
export function countOf({ count }: { count: number | null }): number | null {
  return count !== null && count > 0 ? count : null;
}

/** The one item on the list that a target names, or null. */
export function itemNamed(state: JobState, target: Target | null): number | null {
  if (target === null) return null;
  const found = resolve(state, target);
  return found.kind === 'found' ? found.item.number : null;
}
