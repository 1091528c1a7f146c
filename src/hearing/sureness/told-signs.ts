import type { ItemReading } from '../reading.js';
import type { Chunk } from '../tagging/chunk.js';
import { bearer, carriers, meaningOf, told, type Field } from './evidence.js';
import { company, share, when, type Signs } from './signs.js';
import { isRare, within, type Surroundings } from './surroundings.js';

/** What holds for one field that something is told in. */
export function toldSigns(around: Surroundings, at: number, field: Field): Signs {
  const item = around.items[at];
  const anchor = around.anchors[at] ?? null;
  if (item === undefined) return {};
  const values = told(item, field);
  const bearers = values.map((value) => bearer(field, value, anchor, around.chunks));
  const signs = bearers.map((one) => (one === null ? null : bearing(around, at, field, one)));
  const worst = (name: string): number => Math.max(0, ...signs.map((one) => one?.[name] ?? 0));
  const telling = carriers(field, around.chunks);
  return {
    unsupported: when(bearers.includes(null)),
    valued: share(values.length - 1, 2),
    rivals: share(new Set(telling.map(meaningOf)).size - values.length, 2),
    ...Object.fromEntries(BEARING.map((name) => [name, worst(name)])),
    ...toldCompany(around, field, bearers),
    everyday: when(
      bearers.some(
        (one) => one !== null && one.to === one.from + 1 && !isRare(around.tokens[one.from]?.word ?? ''),
      ),
    ),
    ...Object.fromEntries(
      values.filter(() => /^(place|conditions|processes)$/.test(field)).map((value) => [`is ${value}`, 1]),
    ),
    ...valueSigns(item, field),
  };
}

/** What stands beside the words that tell a field; of the thing itself that is looked at with the item. */
function toldCompany(around: Surroundings, field: Field, bearers: readonly (Chunk | null)[]): Signs {
  const beside: Signs = {};
  if (field === 'part' || field === 'item') return beside;
  for (const one of bearers) if (one !== null) Object.assign(beside, company(around, one, 'told'));
  return beside;
}

const BEARING = [
  'far',
  'before',
  'acrossStop',
  'acrossComma',
  'acrossThing',
  'othersNearer',
  'shared',
  'senses',
  'besideStrayWord',
  'mended',
];

/** How the words that tell a value stand to the name of the thing. */
function bearing(around: Surroundings, at: number, field: Field, chunk: Chunk): Signs {
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
    shared: when(around.items.some((other, index) => index !== at && told(other, field).includes(value))),
    senses: when((chunk.or ?? []).length > 0),
    besideStrayWord: when(around.strays.some((stray) => stray.to === chunk.from || stray.from === chunk.to)),
    mended: when(around.tokens.slice(chunk.from, chunk.to).some((token) => token.repaired === true)),
  };
}

/** Values that are seldom right beside one another, or seldom right at all. */
function valueSigns(item: ItemReading, field: Field): Signs {
  const { act, remedy, conditions } = item;
  const sound = conditions.includes('good');
  return {
    ...(field === 'act' || field === 'outcome' ? { [`is ${act}`]: 1 } : {}),
    ...(field === 'remedy' && remedy !== null ? { [`is ${remedy}`]: 1 } : {}),
    ...(field === 'conditions' ? { good: when(sound) } : {}),
    clash: when(
      (sound && remedy !== null && remedy !== 'keep') ||
        (remedy === 'keep' && conditions.length > 0 && !sound),
    ),
    undecided: when(act === 'finding' && remedy === null && item.supplier !== null),
  };
}
