import type { ItemReading } from '../reading.js';
import { isDoubtful } from './chance.js';
import { bearsDoubt } from './doubts.js';
import { FIELDS, type Evidence } from './evidence.js';
import { fieldSigns } from './field-signs.js';
import { strangelyNamed } from './strange-names.js';
import { surroundings } from './surroundings.js';

/** Beyond this many things a message is a list or a rant, and its fields are not gone over one by one. */
const MOST = 24;

/**
 * The items with the fields marked that are likely enough to be wrong, or that hang on a word not clearly heard. What the
 * items say is not changed, and no mark is taken off.
 */
export function markUnsure(items: readonly ItemReading[], evidence: Evidence): ItemReading[] {
  if (items.length === 0) return [];
  const around = surroundings(items, evidence);
  const doubtful = items.length > MOST ? [] : fieldSigns(around).filter(isDoubtful);
  return items.map((item, at) => {
    const marked = new Set(item.unsure);
    for (const one of doubtful) if (one.item === at) marked.add(one.field);
    if (strangelyNamed(around, at)) marked.add('part');
    for (const field of FIELDS) if (bearsDoubt(around, at, field)) marked.add(field);
    return { ...item, unsure: [...marked] };
  });
}
