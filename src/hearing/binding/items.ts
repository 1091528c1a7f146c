import type { ItemReading } from '../reading.js';
import type { Known } from '../listener.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { unknownPart } from '../tagging/part-index.js';
import type { Token } from '../text/tokens.js';
import { withAbsence } from './absences.js';
import type { Setting } from './acts.js';
import type { Clause } from './clauses.js';
import { withoutHeadings } from './headings.js';
import { inherited, spreadHeaders } from './joining.js';
import type { Mention } from './mentions.js';
import { askedWhenAllIn, mergeRepeated, placeCost } from './merging.js';
import { ridesFailed } from './ride-outcomes.js';
import { sharedByAll } from './shared-by-all.js';
import { thingOf, type Thing } from './things.js';
import { sharedOf, type Shared } from './told.js';

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

const pieces = (said: readonly Chunk[]): number | null =>
  said.findLast((chunk): chunk is ChunkOf<'money'> => chunk.kind === 'money')?.pieces ?? pairsIn(said);

/** "new pair", "a set of 4" where no thing follows. */
const pairsIn = (said: readonly Chunk[]): number | null => {
  const count = said.findLast((chunk): chunk is ChunkOf<'count'> => chunk.kind === 'count');
  const fresh = said.some(
    (chunk) => chunk.kind === 'remedy' && chunk.remedy === 'replace' && chunk.from === count?.to,
  );
  return count !== undefined && (fresh || count.both || count.to - count.from > 1 || count.count === 2)
    ? count.count
    : null;
};

/** A thing named of which nothing was understood (not even that something was denied): what of it must be asked. */
const untold = (shared: Shared, said: readonly Chunk[]): boolean =>
  shared.act === 'finding' &&
  shared.conditions.length + shared.processes.length + shared.readings.length === 0 &&
  [shared.remedy, shared.supplier, shared.stored, shared.cost, shared.due].every((value) => value === null) &&
  !said.some((chunk) => chunk.kind === 'denial');

/** "all the bolts", "four of the six". */
const cameBack = (extent: Thing['extent']): ItemReading['outcome'] =>
  extent === 'whole' ? 'all' : extent === 'some' ? 'part' : null;

/** What comes back and is told of no further came back whole. */
function itemOf(thing: Thing, shared: Shared, said: readonly Chunk[], alone: boolean): ItemReading {
  const { unsure, ...rest } = shared;
  const extent = shared.act === 'back' && shared.outcome === null ? thing.extent : null;
  return {
    ...rest,
    outcome: cameBack(extent) ?? rest.outcome ?? (shared.act === 'back' ? 'all' : null),
    item: thing.item,
    part: thing.part?.part ?? null,
    count: thing.count ?? (alone ? pieces(said) : null),
    place: thing.place,
    unsure: unique([...thing.unsure, ...unsure, ...(untold(shared, said) ? ['act'] : [])]),
  };
}

const lastKnown = (known: Known | undefined): Thing | null => {
  const last = known?.last;
  if (last === undefined) return null;
  const part: ChunkOf<'part'> = { from: 0, to: 0, ...unknownPart(last.part, false, true) };
  return { part, item: last.item ?? null, place: last.place, count: null, unsure: [] };
};

/** The other machine that the message has moved to by then, if it has. */
function movesTo(mention: Mention, machines: readonly ChunkOf<'machine'>[]): string | null {
  const now = machines.findLast((machine) => machine.from <= mention.from)?.machine;
  return now === undefined || now === machines[0]?.machine ? null : now;
}

/** "Hadley's rang, the gaskets Thursday but the rings not till the 19th": who promised the first promised both. */
const promisedAlike = (items: readonly ItemReading[]): ItemReading[] => {
  let by: string | null = null;
  return items.map((item) => {
    by = item.act === 'promised' ? (item.supplier ?? by) : null;
    return item.act === 'promised' ? { ...item, supplier: by } : item;
  });
};

/** Items of the reading, in the order said. */
export function itemsOf(
  clauses: readonly Clause[],
  setting: Setting,
  tokens: readonly Token[],
  known: Known | undefined,
  pointsBack: boolean,
  machines: readonly ChunkOf<'machine'>[],
  today: string,
): ItemReading[] {
  const items: ItemReading[] = [];
  const others = new Set<number>();
  let last: Thing | null = lastKnown(known);
  const spread = withoutHeadings(spreadHeaders(clauses));
  spread.forEach((clause, at) => {
    const before = spread[at - 1];
    const said = [...withAbsence(clause, tokens), ...inherited(clause, before)];
    if (clause.mentions.length === 0) {
      const thing: Thing =
        pointsBack && last !== null ? last : { part: null, item: null, place: [], count: null, unsure: [] };
      items.push(itemOf(thing, sharedOf(said, thing, setting, tokens, today), said, true));
      return;
    }
    const whole = clause.mentions[0]?.extent === 'whole';
    const alone = clause.mentions.length === 1;
    const made = clause.mentions.map((mention, nth) => {
      if (mention.back === 'other' || mention.back === 'some') others.add(items.length + nth);
      const thing = thingOf(whole ? { ...mention, extent: 'whole' } : mention, last);
      last = thing;
      const moved = movesTo(mention, machines);
      return {
        ...itemOf(thing, sharedOf(said, thing, setting, tokens, today), said, alone),
        ...(moved === null ? {} : { machine: moved }),
      };
    });
    items.push(...askedWhenAllIn(placeCost(made), said, items.length > 0));
  });
  return ridesFailed(mergeRepeated(sharedByAll(promisedAlike(items)), others));
}
