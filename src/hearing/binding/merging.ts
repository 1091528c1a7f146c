import type { ItemReading } from '../reading.js';
import type { Place } from '../../trade/terms.js';
import type { Chunk } from '../tagging/chunk.js';

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

/** A sum said once for several things stands on the last, and is asked about unless it was for each. */
export function placeCost(items: ItemReading[]): ItemReading[] {
  return items.map((item, index) => {
    if (items.length < 2 || item.cost === null || item.cost.each) return item;
    if (index < items.length - 1) return { ...item, cost: null };
    return { ...item, unsure: unique([...item.unsure, 'cost']) };
  });
}

const samePlace = (a: readonly Place[], b: readonly Place[]): boolean =>
  a.length === 0 || b.length === 0 || (a.length === b.length && a.every((place) => b.includes(place)));

/** "eight head studs, two stripped. helicoil them": the same said of the same. */
const saysAgain = (before: ItemReading, item: ItemReading): boolean =>
  before.act === item.act &&
  item.conditions.length > 0 &&
  item.outcome === before.outcome &&
  item.readings.length === 0 &&
  before.place.join() === item.place.join() &&
  before.conditions.length === item.conditions.length &&
  item.conditions.every((condition) => before.conditions.includes(condition)) &&
  (before.remedy === null || before.remedy === item.remedy);

/** "new guide, ream the guide here": what is done to the new one. */
const worksOnNew = (before: ItemReading, item: ItemReading): boolean =>
  before.act === item.act &&
  before.remedy === 'replace' &&
  item.remedy === 'repair' &&
  item.processes.length > 0 &&
  samePlace(before.place, item.place);

/** A thing named again only to say what is to be done with it is the same item: "points pitted, replace the points". */
export function mergeRepeated(items: readonly ItemReading[]): ItemReading[] {
  const out: ItemReading[] = [];
  for (const item of items) {
    const before =
      (item.place.length > 0
        ? out.findLast(
            (other) =>
              other.part === item.part &&
              other.part !== null &&
              other.place.length > 0 &&
              samePlace(other.place, item.place),
          )
        : undefined) ?? out.findLast((other) => other.part === item.part && other.part !== null);
    const decides =
      item.conditions.length === 0 &&
      item.readings.length === 0 &&
      (item.count === null || before?.count === null) &&
      item.outcome === null;
    const same =
      before !== undefined &&
      decides &&
      before.remedy === null &&
      before.act === item.act &&
      samePlace(before.place, item.place) &&
      before.stored === null &&
      !(out.filter((other) => other.part === item.part).length > 1 && item.place.length === 0);
    const again = before !== undefined && (saysAgain(before, item) || (decides && worksOnNew(before, item)));
    if (!same && !again) {
      out.push(item);
      continue;
    }
    Object.assign(before, {
      remedy: before.remedy ?? item.remedy,
      processes: unique([...before.processes, ...item.processes]),
      supplier: item.supplier ?? before.supplier,
      cost: item.cost ?? before.cost,
      due: item.due ?? before.due,
      stored: before.stored ?? item.stored,
      count: before.count ?? item.count,
      place: before.place.length > 0 ? before.place : item.place,
      unsure: unique([...before.unsure, ...item.unsure]).filter((field) => field !== 'act'),
    });
  }
  return out;
}

/** "all in" after several things: how much is for which must be asked. */
export const askedWhenAllIn = (
  made: ItemReading[],
  said: readonly Chunk[],
  others: boolean,
): ItemReading[] =>
  others && said.some((chunk) => chunk.kind === 'money' && chunk.together)
    ? made.map((item) => (item.cost === null ? item : { ...item, unsure: unique([...item.unsure, 'cost']) }))
    : made;
