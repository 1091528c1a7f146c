import type { ItemReading } from '../reading.js';
import type { Chunk } from '../tagging/chunk.js';
import { bearer, carriers, meaningOf, type Field } from './evidence.js';
import { company, share, speaking, when, type Sign, type Signs } from './signs.js';
import { isRare, told, within, type Surroundings } from './surroundings.js';

/** What holds for one field that something is told in. */
export function toldSigns(around: Surroundings, at: number, field: Field): Sign[] {
  const item = around.items[at];
  const anchor = around.anchors[at] ?? null;
  if (item === undefined) return [];
  const values = told(around, at, field);
  const bearers = values.map((value) => bearer(field, value, anchor, around.chunks));
  const telling = carriers(field, around.chunks);
  const signs = speaking({
    unsupported: when(bearers.includes(null)),
    valued: share(values.length - 1, 2),
    rivals: share(new Set(telling.map(meaningOf)).size - values.length, 2),
    everyday: when(
      bearers.some(
        (one) => one !== null && one.to === one.from + 1 && !isRare(around.tokens[one.from]?.word ?? ''),
      ),
    ),
    ...valueSigns(item, field),
  });
  const borne = bearers.filter((one) => one !== null).map((one) => bearing(around, at, field, one));
  if (borne.length > 0) signs.push(...speaking(borne.reduce(worse)));
  for (const name of toldCompany(around, field, bearers)) signs.push([name, 1]);
  for (const name of valueNames(item, field)) signs.push([name, 1]);
  return signs;
}

/** What stands beside the words that tell a field; of the thing itself that is looked at with the item. */
function toldCompany(
  around: Surroundings,
  field: Field,
  bearers: readonly (Chunk | null)[],
): ReadonlySet<string> {
  const beside = new Set<string>();
  if (field === 'part' || field === 'item') return beside;
  for (const one of bearers)
    if (one !== null) for (const name of company(around, one, 'told')) beside.add(name);
  return beside;
}

/** Of two, the more of each sign. */
const worse = (one: Bearing, other: Bearing): Bearing => ({
  far: Math.max(one.far, other.far),
  before: Math.max(one.before, other.before),
  acrossStop: Math.max(one.acrossStop, other.acrossStop),
  acrossComma: Math.max(one.acrossComma, other.acrossComma),
  acrossThing: Math.max(one.acrossThing, other.acrossThing),
  othersNearer: Math.max(one.othersNearer, other.othersNearer),
  shared: Math.max(one.shared, other.shared),
  senses: Math.max(one.senses, other.senses),
  besideStrayWord: Math.max(one.besideStrayWord, other.besideStrayWord),
  mended: Math.max(one.mended, other.mended),
});

/** How the words that tell a value stand to the name of the thing. */
function bearing(around: Surroundings, at: number, field: Field, chunk: Chunk) {
  const anchor = around.anchors[at] ?? null;
  const span =
    anchor === null ? chunk : { from: Math.min(anchor.to, chunk.to), to: Math.max(anchor.from, chunk.from) };
  const gap = anchor === null ? 0 : Math.max(0, span.to - span.from);
  const between = anchor === null ? [] : within(span, around.chunks);
  const count = (kind: Chunk['kind']): number => between.filter((one) => one.kind === kind).length;
  const apart = (other: Chunk | null): number =>
    other === null ? Infinity : Math.max(other.from - chunk.to, chunk.from - other.to, 0);
  const value = meaningOf(chunk);
  return {
    far: share(gap, 10),
    before: when(anchor !== null && chunk.to <= anchor.from),
    acrossStop: when(around.stops.some((stop) => stop >= span.from && stop < span.to)),
    acrossComma: share(count('break') + count('and'), 3),
    acrossThing: share(count('part') + count('item'), 2),
    othersNearer: when(around.anchors.some((other) => other !== anchor && apart(other) < apart(anchor))),
    shared: when(around.items.some((_, index) => index !== at && told(around, index, field).includes(value))),
    senses: when((chunk.or ?? []).length > 0),
    besideStrayWord: when(around.strays.some((stray) => stray.to === chunk.from || stray.from === chunk.to)),
    mended: when(around.tokens.slice(chunk.from, chunk.to).some((token) => token.repaired === true)),
  };
}

type Bearing = ReturnType<typeof bearing>;

/** Values that are seldom right beside one another. */
function valueSigns(item: ItemReading, field: Field): Signs {
  const { act, remedy, conditions } = item;
  const sound = conditions.includes('good');
  return {
    good: when(field === 'conditions' && sound),
    clash: when(
      (sound && remedy !== null && remedy !== 'keep') ||
        (remedy === 'keep' && conditions.length > 0 && !sound),
    ),
    undecided: when(act === 'finding' && remedy === null && item.supplier !== null),
  };
}

/** Values that are seldom right at all are signs by themselves. */
function valueNames(item: ItemReading, field: Field): readonly string[] {
  switch (field) {
    case 'act':
    case 'outcome':
      return [`is ${item.act}`];
    case 'remedy':
      return item.remedy === null ? [] : [`is ${item.remedy}`];
    case 'place':
    case 'conditions':
    case 'processes':
      return [...new Set<string>(item[field])].map((value) => `is ${value}`);
    case 'item':
    case 'part':
    case 'count':
    case 'supplier':
    case 'stored':
    case 'cost':
    case 'due':
    case 'readings':
      return [];
  }
}
