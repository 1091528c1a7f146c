import { FIELDS, type Field } from './evidence.js';
import { relationSigns } from './relation-signs.js';
import { itemSigns, messageSigns, nameCompany, speaking, type Sign } from './signs.js';
import { told, type Surroundings } from './surroundings.js';
import { toldSigns } from './told-signs.js';
import { untoldItemSigns, untoldSigns } from './untold-signs.js';

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
  return around.items.flatMap((_, at) => {
    const shared = [
      ...ofMessage,
      ...speaking(itemSigns(around, at)),
      ...nameCompany(around, at),
      ...speaking(relationSigns(around, at)),
    ];
    const untold = untoldItemSigns(around, at);
    return FIELDS.map((field): FieldSigns => {
      const absent = told(around, at, field).length === 0;
      const own = absent ? [...untoldSigns(around, at, field), ...untold] : toldSigns(around, at, field);
      return { item: at, field, absent, shared, own };
    });
  });
}
