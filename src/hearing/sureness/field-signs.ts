import { FIELDS, told, type Field } from './evidence.js';
import { relationSigns } from './relation-signs.js';
import { itemSigns, messageSigns, type Sign, type Signs } from './signs.js';
import type { Surroundings } from './surroundings.js';
import { toldSigns } from './told-signs.js';
import { untoldSigns } from './untold-signs.js';

/** One field of one item, and what speaks for or against it: what all fields of the item share, and what is this one's own. */
export type FieldSigns = {
  item: number;
  field: Field;
  absent: boolean;
  /** The same list for all fields of an item; none of these signs is among anyone's own. */
  shared: readonly Sign[];
  own: readonly Sign[];
};

/** Every field of every item, those that nothing is told in included. */
export function fieldSigns(around: Surroundings): FieldSigns[] {
  const ofMessage = speaking(messageSigns(around));
  return around.items.flatMap((item, at) => {
    const shared = [...ofMessage, ...speaking(itemSigns(around, at)), ...speaking(relationSigns(around, at))];
    return FIELDS.map((field): FieldSigns => {
      const absent = told(item, field).length === 0;
      const own = absent ? untoldSigns(around, at, field) : toldSigns(around, at, field);
      return { item: at, field, absent, shared, own: speaking(own) };
    });
  });
}

const speaking = (signs: Signs): Sign[] => Object.entries(signs).filter(([, value]) => value !== 0);
