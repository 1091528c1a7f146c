import type { ItemReading } from '../reading.js';
import { FIELDS, told, type Evidence, type Field } from './evidence.js';
import { absentSigns, itemSigns, messageSigns, presentSigns, type Signs } from './signs.js';
import { surroundings } from './surroundings.js';

/** One field of one item, and what speaks for or against it. */
export type FieldSigns = { item: number; field: Field; absent: boolean; signs: Signs };

/** Every field of every item, those that nothing is told in included. */
export function fieldSigns(items: readonly ItemReading[], evidence: Evidence): FieldSigns[] {
  const around = surroundings(items, evidence);
  const ofMessage = messageSigns(around);
  return items.flatMap((item, at) => {
    const ofItem = { ...ofMessage, ...itemSigns(around, at) };
    return FIELDS.map((field): FieldSigns => {
      const absent = told(item, field).length === 0;
      const own = absent ? absentSigns(around, at, field) : presentSigns(around, at, field);
      return { item: at, field, absent, signs: { ...ofItem, ...own } };
    });
  });
}
