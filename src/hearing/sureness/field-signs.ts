import { FIELDS, told, type Field } from './evidence.js';
import { relationSigns } from './relation-signs.js';
import { itemSigns, messageSigns, type Signs } from './signs.js';
import type { Surroundings } from './surroundings.js';
import { toldSigns } from './told-signs.js';
import { untoldSigns } from './untold-signs.js';

/** One field of one item, and what speaks for or against it. */
export type FieldSigns = { item: number; field: Field; absent: boolean; signs: Signs };

/** Every field of every item, those that nothing is told in included. */
export function fieldSigns(around: Surroundings): FieldSigns[] {
  const ofMessage = messageSigns(around);
  return around.items.flatMap((item, at) => {
    const ofItem = { ...ofMessage, ...itemSigns(around, at), ...relationSigns(around, at) };
    return FIELDS.map((field): FieldSigns => {
      const absent = told(item, field).length === 0;
      const own = absent ? untoldSigns(around, at, field) : toldSigns(around, at, field);
      return { item: at, field, absent, signs: { ...ofItem, ...own } };
    });
  });
}
