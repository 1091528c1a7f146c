import { carriers, told, type Field } from './evidence.js';
import { when, type Signs } from './signs.js';
import { within, type Surroundings } from './surroundings.js';

/** What holds for one field that nothing is told in. */
export function untoldSigns(around: Surroundings, at: number, field: Field): Signs {
  const item = around.items[at];
  const reach = around.reaches[at];
  if (item === undefined || reach === undefined) return {};
  const { own, sentence } = reach;
  const telling = carriers(field, around.chunks);
  return {
    said: when(telling.length > 0),
    saidOwn: when(within(own, telling).length > 0),
    saidSentence: when(within(sentence, telling).length > 0),
    saidLost: when(telling.some((chunk) => around.lost.includes(chunk))),
    neighbour: when(around.items.some((other, index) => index !== at && told(other, field).length > 0)),
    next: when(around.items.slice(at + 1, at + 2).flatMap((other) => told(other, field)).length > 0),
    ownFigures: when(within(own, around.figures).length > 0),
    [`at ${item.act}`]: 1,
    [`no ${field} at ${item.act}`]: 1,
    decided: when(item.remedy !== null),
    faulty: when(item.conditions.length > 0 && !item.conditions.includes('good')),
    hasProcess: when(item.processes.length > 0),
    hasSupplier: when(item.supplier !== null),
    hasCost: when(item.cost !== null),
  };
}
