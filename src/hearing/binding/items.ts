import type { ItemReading } from '../reading.js';
import type { Condition, Place } from '../../trade/terms.js';
import type { Known } from '../listener.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { unknownPart } from '../tagging/part-index.js';
import type { Token } from '../text/tokens.js';
import { actOf, type Setting } from './acts.js';
import type { Clause } from './clauses.js';
import { decisionOf } from './decisions.js';
import { measuredOf } from './measured.js';
import type { Mention } from './mentions.js';

const OPPOSITE: Partial<Record<Place, Place>> = {
  front: 'rear',
  rear: 'front',
  left: 'right',
  right: 'left',
  upper: 'lower',
  lower: 'upper',
  inner: 'outer',
  outer: 'inner',
  inlet: 'exhaust',
  exhaust: 'inlet',
  'drive-side': 'timing-side',
  'timing-side': 'drive-side',
};

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

export type Thing = {
  part: ChunkOf<'part'> | null;
  item: number | null;
  place: Place[];
  count: number | null;
  extent?: Mention['extent'];
  unsure: string[];
};

function opposite(places: readonly Place[], sides: readonly Place[]): Place[] {
  if (places.length > 0) return places.map((place) => OPPOSITE[place] ?? place);
  return sides.length === 2 ? sides.slice(1) : [];
}

/** What a mention points at, given the thing spoken of before it. */
export function thingOf(mention: Mention, last: Thing | null): Thing {
  if (mention.back === 'some')
    return {
      part: last?.part ?? null,
      item: null,
      place: last?.place ?? [],
      count: mention.count,
      unsure: last === null ? ['part'] : [],
    };
  if (mention.back !== null) {
    const part = last?.part ?? null;
    const kept =
      mention.back === 'place' ? (last?.place ?? []).filter((place) => !related(place, mention.places)) : [];
    const place =
      mention.back === 'other'
        ? opposite(last?.place ?? [], part?.sides ?? [])
        : [...kept, ...mention.places];
    return { part, item: null, place, count: null, unsure: last === null ? ['part'] : [] };
  }
  const part = mention.part;
  const sides = part?.sides ?? [];
  const place =
    mention.both && sides.includes('left') && sides.includes('right') && mention.places.length === 0
      ? [...mention.places, 'left' as const, 'right' as const]
      : mention.places;
  return {
    part,
    item: mention.item,
    place: unique(place),
    count: mention.count,
    extent: mention.extent,
    unsure: part !== null && !part.sure ? ['part'] : [],
  };
}

/** Places of one pair take each other's turn: after "the left", "the right" is the right alone. */
const related = (place: Place, others: readonly Place[]): boolean =>
  others.some((other) => other === place || OPPOSITE[place] === other);

const supplierOf = (said: readonly Chunk[]): string | undefined =>
  said.findLast((chunk): chunk is ChunkOf<'supplier'> => chunk.kind === 'supplier')?.supplier;

/** "gone to Mrs Lamb": a person with a title who work goes to or comes from. */
const hired = (said: readonly Chunk[], act: string, tokens: readonly Token[]): string | undefined =>
  act === 'agreed'
    ? undefined
    : said.find(
        (chunk): chunk is ChunkOf<'owner'> =>
          chunk.kind === 'owner' && /^(to|from|at|with|off)$/.test(tokens[chunk.from - 1]?.word ?? ''),
      )?.owner;

const TOLD_LATE = new Set(['back', 'stripped', 'fitted', 'tested']);

type Shared = Omit<ItemReading, 'item' | 'part' | 'count' | 'place' | 'unsure'> & { unsure: string[] };

/** What a clause says, apart from the things it is said of. */
export function sharedOf(
  said: readonly Chunk[],
  thing: Thing | null,
  setting: Setting,
  tokens: readonly Token[],
  today: string,
): Shared {
  const told = actOf(said, setting);
  const decision = decisionOf(said, told.act, tokens);
  const conditions = unique(
    said
      .filter((chunk): chunk is ChunkOf<'condition'> => chunk.kind === 'condition')
      .map((chunk) => chunk.condition),
  );
  const real: Condition[] =
    conditions.length > 1 ? conditions.filter((condition) => condition !== 'good') : conditions;
  const supplier = supplierOf(said) ?? hired(said, told.act, tokens);
  const money = said.findLast((chunk): chunk is ChunkOf<'money'> => chunk.kind === 'money');
  const date = said.findLast((chunk): chunk is ChunkOf<'date'> => chunk.kind === 'date');
  const past =
    TOLD_LATE.has(told.act) || (date?.date === today && told.act !== 'promised' && told.act !== 'finding');
  const due = date === undefined || (past && !date.by) ? undefined : date;
  const unsure = [
    ...(told.sure ? [] : ['act']),
    ...(decision.sure ? [] : ['remedy']),
    ...(money?.sure === false &&
    !said.some((chunk) => chunk.kind === 'supplier' || chunk.kind === 'remedy' || chunk.kind === 'process')
      ? ['cost']
      : []),
    ...(due?.sure === false ? ['due'] : []),
  ];
  return {
    act: told.act,
    conditions: real,
    remedy: decision.remedy,
    processes: decision.processes,
    supplier: supplier ?? null,
    stored: said.findLast((chunk): chunk is ChunkOf<'stored'> => chunk.kind === 'stored')?.stored ?? null,
    outcome: told.act === 'back' ? (told.outcome ?? (whole(said) ? 'all' : null)) : told.outcome,
    cost: money?.cost ?? null,
    due: due?.date ?? null,
    readings: measuredOf(said, thing?.part ?? null),
    unsure,
  };
}

/** "the lot", "all of it" came back. */
const whole = (said: readonly Chunk[]): boolean =>
  said.some((chunk) => chunk.kind === 'pronoun' && chunk.refers === 'all');

const pieces = (said: readonly Chunk[]): number | null =>
  said.findLast((chunk): chunk is ChunkOf<'money'> => chunk.kind === 'money')?.pieces ?? pairsIn(said);

/** "new pair", "a set of 4" where no thing follows. */
const pairsIn = (said: readonly Chunk[]): number | null => {
  const count = said.findLast((chunk): chunk is ChunkOf<'count'> => chunk.kind === 'count');
  return count !== undefined && (count.both || count.to - count.from > 1 || count.count === 2)
    ? count.count
    : null;
};

function itemOf(thing: Thing, shared: Shared, said: readonly Chunk[]): ItemReading {
  const { unsure, ...rest } = shared;
  const extent = shared.act === 'back' && shared.outcome === null ? thing.extent : null;
  return {
    ...rest,
    outcome: extent === 'whole' ? 'all' : extent === 'some' ? 'part' : rest.outcome,
    item: thing.item,
    part: thing.part?.part ?? null,
    count: thing.count ?? pieces(said),
    place: thing.place,
    unsure: unique([...thing.unsure, ...unsure]),
  };
}

/** A sum said once for several things stands on the last, and is asked about unless it was for each. */
function placeCost(items: ItemReading[]): ItemReading[] {
  return items.map((item, index) => {
    if (items.length < 2 || item.cost === null || item.cost.each) return item;
    if (index < items.length - 1) return { ...item, cost: null };
    return { ...item, unsure: unique([...item.unsure, 'cost']) };
  });
}

const lastKnown = (known: Known | undefined): Thing | null => {
  const last = known?.last;
  if (last === undefined) return null;
  const part: ChunkOf<'part'> = { from: 0, to: 0, ...unknownPart(last.part, false, true) };
  return { part, item: last.item ?? null, place: last.place, count: null, unsure: [] };
};

const INHERITS = new Set<Chunk['kind']>(['condition', 'remedy', 'process', 'act', 'supplier', 'date']);

/** What a clause takes over from the one before: all with "as well" or "same with", the decision alone for a thing added. */
function inherited(clause: Clause, before: Clause | undefined, known: Known | undefined): Chunk[] {
  void known;
  if (before === undefined || clause.mentions.length === 0) return [];
  if (clause.same) {
    const own = new Set(clause.said.map((chunk) => chunk.kind));
    return before.said.filter((chunk) => INHERITS.has(chunk.kind) && !own.has(chunk.kind));
  }
  const bare = clause.said.every((chunk) => chunk.kind === 'money');
  return bare
    ? before.said.filter(
        (chunk) => chunk.kind === 'remedy' || chunk.kind === 'act' || chunk.kind === 'supplier',
      )
    : [];
}

const answer = (said: readonly Chunk[]): string | null => {
  const found = said.findLast(
    (chunk): chunk is ChunkOf<'act'> => chunk.kind === 'act' && chunk.act === 'agreed',
  );
  return found?.outcome ?? null;
};

/** "happy with the blue but not with the rims": two answers, the first about nothing we know. */
const ownAnswer = (lead: readonly Chunk[], said: readonly Chunk[]): boolean =>
  answer(lead) !== null && answer(said) !== null && answer(lead) !== answer(said);

/** Clauses that name nothing join the one before them, or lead on to the one after. */
export function joinClauses(clauses: readonly Clause[]): Clause[] {
  const joined: Clause[] = [];
  let lead: Chunk[] = [];
  for (const clause of clauses) {
    const before = joined.at(-1);
    if (clause.mentions.length > 0) {
      if (ownAnswer(lead, clause.said)) {
        joined.push({ mentions: [], said: lead, all: false, same: false, fore: 0 });
        lead = lead.filter((chunk) => chunk.kind === 'owner');
      }
      joined.push({ ...clause, said: [...lead, ...clause.said], fore: clause.fore + lead.length });
      lead = [];
    } else if (before === undefined) lead = [...lead, ...clause.said];
    else if (clause.all) for (const one of joined) one.said = [...one.said, ...clause.said];
    else before.said = [...before.said, ...clause.said];
  }
  if (joined.length === 0 && lead.length > 0)
    joined.push({
      mentions: [],
      said: lead,
      all: false,
      same: clauses.some((clause) => clause.same),
      fore: 0,
    });
  return joined;
}

const samePlace = (a: readonly Place[], b: readonly Place[]): boolean =>
  a.length === 0 || b.length === 0 || (a.length === b.length && a.every((place) => b.includes(place)));

/** A thing named again only to say what is to be done with it is the same item: "points pitted, replace the points". */
function mergeRepeated(items: readonly ItemReading[]): ItemReading[] {
  const out: ItemReading[] = [];
  for (const item of items) {
    const before = out.findLast((other) => other.part === item.part && other.part !== null);
    const decides =
      item.conditions.length === 0 &&
      item.readings.length === 0 &&
      item.count === null &&
      item.outcome === null;
    const same =
      before !== undefined &&
      decides &&
      before.remedy === null &&
      before.act === item.act &&
      samePlace(before.place, item.place) &&
      before.stored === null &&
      !(out.filter((other) => other.part === item.part).length > 1 && item.place.length === 0);
    if (!same) {
      out.push(item);
      continue;
    }
    Object.assign(before, {
      remedy: item.remedy,
      processes: unique([...before.processes, ...item.processes]),
      supplier: item.supplier ?? before.supplier,
      cost: item.cost ?? before.cost,
      due: item.due ?? before.due,
      stored: item.stored,
      place: before.place.length > 0 ? before.place : item.place,
      unsure: unique([...before.unsure, ...item.unsure]),
    });
  }
  return out;
}

/** "tyres on, front 22 psi, rear 26": a thing named first, then its places one by one; it gives them its act and goes. */
function spreadHeaders(clauses: readonly Clause[]): Clause[] {
  const out: Clause[] = [];
  let header: Clause | null = null;
  for (const clause of clauses) {
    const points =
      clause.mentions.length > 0 &&
      clause.mentions.every((mention) => mention.back === 'place' || mention.back === 'some');
    const before = out.at(-1);
    if (points && before !== undefined && header === null && isHeader(before)) header = out.pop() ?? null;
    if (!points) header = null;
    if (header === null) out.push(clause);
    else {
      const part = header.mentions.at(-1)?.part ?? null;
      const mentions = clause.mentions.map((mention) => ({ ...mention, part, back: null }));
      out.push({ ...clause, mentions, said: [...header.said, ...clause.said] });
    }
  }
  return out;
}

const isHeader = (clause: Clause): boolean =>
  clause.mentions.length === 1 &&
  clause.mentions[0]?.part != null &&
  clause.mentions[0].places.length === 0 &&
  clause.said.every((chunk) => chunk.kind === 'act' && chunk.outcome === null);

/** The other machine that the message has moved to by then, if it has. */
function movesTo(mention: Mention, machines: readonly ChunkOf<'machine'>[]): string | null {
  const now = machines.findLast((machine) => machine.from <= mention.from)?.machine;
  return now === undefined || now === machines[0]?.machine ? null : now;
}

/** "all in" after several things: how much is for which must be asked. */
const askedWhenAllIn = (made: ItemReading[], said: readonly Chunk[], others: boolean): ItemReading[] =>
  others && said.some((chunk) => chunk.kind === 'money' && chunk.together)
    ? made.map((item) => (item.cost === null ? item : { ...item, unsure: unique([...item.unsure, 'cost']) }))
    : made;

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
  let last: Thing | null = lastKnown(known);
  const spread = spreadHeaders(clauses);
  spread.forEach((clause, at) => {
    const before = spread[at - 1];
    const said = [...clause.said, ...inherited(clause, before, known)];
    if (clause.mentions.length === 0) {
      const thing: Thing =
        pointsBack && last !== null ? last : { part: null, item: null, place: [], count: null, unsure: [] };
      items.push(itemOf(thing, sharedOf(said, thing, setting, tokens, today), said));
      return;
    }
    const whole = clause.mentions[0]?.extent === 'whole';
    const made = clause.mentions.map((mention) => {
      const thing = thingOf(whole ? { ...mention, extent: 'whole' } : mention, last);
      last = thing;
      const moved = movesTo(mention, machines);
      return {
        ...itemOf(thing, sharedOf(said, thing, setting, tokens, today), said),
        ...(moved === null ? {} : { machine: moved }),
      };
    });
    items.push(...askedWhenAllIn(placeCost(made), said, items.length > 0));
  });
  return mergeRepeated(items);
}
