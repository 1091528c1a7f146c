import type { ItemReading } from '../reading.js';
import type { Place } from '../../trade/terms.js';
import type { Chunk } from '../tagging/chunk.js';
import { renewedBy } from './renewals.js';

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

/** The very thing spoken of again, and more found of it: "wheel out of true: run out 2 mm, radial 1 mm". */
const foundMore = (before: ItemReading, item: ItemReading): boolean =>
  before.act === 'finding' &&
  item.act === 'finding' &&
  before.item === item.item &&
  before.count === item.count &&
  [...before.place].sort().join() === [...item.place].sort().join() &&
  (before.remedy === null || item.remedy === null || before.remedy === item.remedy) &&
  (before.supplier === null || item.supplier === null) &&
  (before.cost === null || item.cost === null) &&
  !(before.conditions.includes('good') !== item.conditions.includes('good') && item.conditions.length > 0);

/** "left stanchion pitted, right one bent … stanchions to Wharmby": the ones told of apart, all still to be decided. */
const untoldOf = (items: readonly ItemReading[], item: ItemReading): ItemReading[] =>
  items.filter(
    (other) =>
      other.part === item.part &&
      other.part !== null &&
      other.place.length > 0 &&
      other.act === item.act &&
      item.act === 'finding' &&
      other.remedy === null &&
      item.remedy !== null &&
      (other.readings.length > 0 || other.conditions.some((condition) => condition !== 'good')),
  );

/** A thing named again only to say what is to be done with it is the same item: "points pitted, replace the points". `others`: the places of items told of as others of a kind. */
export function mergeRepeated(items: readonly ItemReading[], others: ReadonlySet<number>): ItemReading[] {
  const out: ItemReading[] = [];
  for (const [at, item] of items.entries()) {
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
    const again =
      before !== undefined &&
      ((!others.has(at) && foundMore(before, item)) ||
        saysAgain(before, item) ||
        (decides && worksOnNew(before, item)));
    const priced = item.cost !== null && !item.cost.each;
    const each = decides && item.place.length === 0 && !priced ? untoldOf(out, item) : [];
    if (each.length > 1) {
      for (const one of each) addTo(one, { ...item, count: null }, false);
      continue;
    }
    const renewed = same || again ? before : renewedBy(out, item);
    if (renewed === undefined) {
      out.push(item);
      continue;
    }
    addTo(renewed, item, !(same || again));
  }
  return out;
}

/** What is told of a thing named again goes to it; something new in its place settles what is to be done. */
function addTo(before: ItemReading, item: ItemReading, renewed: boolean): void {
  Object.assign(before, {
    remedy: renewed ? item.remedy : (before.remedy ?? item.remedy),
    processes: unique([...before.processes, ...item.processes]),
    conditions: unique([...before.conditions, ...item.conditions]),
    readings: [...before.readings, ...item.readings],
    supplier: item.supplier ?? before.supplier,
    cost: item.cost ?? before.cost,
    due: item.due ?? before.due,
    stored: before.stored ?? item.stored,
    count: before.count ?? item.count,
    place: before.place.length > 0 ? before.place : item.place,
    unsure: unique([...before.unsure, ...(renewed ? [] : item.unsure)]).filter((field) => field !== 'act'),
  });
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
