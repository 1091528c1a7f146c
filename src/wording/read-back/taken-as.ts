import type { ItemReading } from '../../hearing/reading.js';
import { measured } from '../figures.js';
import { joined } from '../lines.js';
import { conditionName, doing } from '../terms.js';
import type { Told } from './told.js';
import { readItems } from './unsure.js';

const MOST = 3;

/** What the reader was not sure of and nothing much hangs on: said in one line, not asked; null where there is none of it. */
export function takenAs(told: Told): string | null {
  const doubtful = readItems(told).flatMap((item) => item.unsure.flatMap((field) => wordsFor(field, item)));
  const some = [...new Set(doubtful)].slice(0, MOST);
  return some.length === 0 ? null : `I took it as: ${joined(some)}. “Change” if not.`;
}

function wordsFor(field: string, item: ItemReading): string[] {
  switch (field) {
    case 'count':
      return item.count === null ? [] : [`${item.count} of them`];
    case 'conditions':
      return item.conditions.map(conditionName);
    case 'processes':
      return item.processes.length === 0 ? [] : [doing(item.processes)];
    case 'stored':
      return item.stored === null ? [] : [`in ${item.stored}`];
    case 'readings':
      return measured(item.readings);
    default:
      return [];
  }
}
