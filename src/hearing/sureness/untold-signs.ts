import { ACTS, type Act } from '../reading.js';
import { carriers, FIELDS, type Field } from './evidence.js';
import { speaking, when, type Sign } from './signs.js';
import { isAnyWithin, told, type Surroundings } from './surroundings.js';

/** The signs of nothing told in a field of an item with that act, of which one holds for each. */
const AT_ACT = new Map<Field, ReadonlyMap<Act, readonly Sign[]>>(
  FIELDS.map((field) => [
    field,
    new Map(
      ACTS.map((act) => [
        act,
        [
          [`at ${act}`, 1],
          [`no ${field} at ${act}`, 1],
        ],
      ]),
    ),
  ]),
);

/** What holds for all fields of an item that nothing is told in. */
export function untoldItemSigns(around: Surroundings, at: number): Sign[] {
  const item = around.items[at];
  const own = around.reaches[at]?.own;
  if (item === undefined || own === undefined) return [];
  return speaking({
    ownFigures: when(isAnyWithin(own, around.figures)),
    decided: when(item.remedy !== null),
    faulty: when(item.conditions.length > 0 && !item.conditions.includes('good')),
    hasProcess: when(item.processes.length > 0),
    hasSupplier: when(item.supplier !== null),
    hasCost: when(item.cost !== null),
  });
}

/** What holds for one field that nothing is told in. */
export function untoldSigns(around: Surroundings, at: number, field: Field): Sign[] {
  const item = around.items[at];
  const reach = around.reaches[at];
  if (item === undefined || reach === undefined) return [];
  const { own, sentence } = reach;
  const telling = carriers(field, around.chunks);
  const signs = speaking({
    said: when(telling.length > 0),
    saidOwn: when(isAnyWithin(own, telling)),
    saidSentence: when(isAnyWithin(sentence, telling)),
    saidLost: when(telling.some((chunk) => around.lost.includes(chunk))),
    neighbour: when(around.items.some((_, index) => index !== at && told(around, index, field).length > 0)),
    next: when(told(around, at + 1, field).length > 0),
  });
  signs.push(...(AT_ACT.get(field)?.get(item.act) ?? []));
  return signs;
}
