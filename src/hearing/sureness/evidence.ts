import type { ItemReading } from '../reading.js';
import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';

/** The fields that a mark can stand on; a cost is one field with all that is said of it. */
export const FIELDS = [
  'act',
  'item',
  'part',
  'count',
  'place',
  'conditions',
  'remedy',
  'processes',
  'supplier',
  'stored',
  'outcome',
  'cost',
  'due',
  'readings',
] as const;
export type Field = (typeof FIELDS)[number];

/** What a message was read from: its words after repair, what each was taken for, and which were not clearly heard. */
export type Evidence = {
  tokens: readonly Token[];
  chunks: readonly Chunk[];
  spoken: boolean;
  doubted: ReadonlySet<number>;
};

/** Something for each field. */
export const eachField = <T>(make: (field: Field) => T): Record<Field, T> =>
  Object.fromEntries(FIELDS.map((field) => [field, make(field)])) as Record<Field, T>;

type KindOf = Chunk['kind'];

const CARRIERS: Record<Field, readonly KindOf[]> = {
  act: ['act'],
  item: ['item'],
  part: ['part'],
  count: ['count'],
  place: ['place'],
  conditions: ['condition'],
  remedy: ['remedy'],
  processes: ['process'],
  supplier: ['supplier', 'owner'],
  stored: ['stored'],
  outcome: ['act'],
  cost: ['money'],
  due: ['date'],
  readings: ['measure'],
};

const carried = new WeakMap<readonly Chunk[], Record<Field, readonly Chunk[]>>();

/** The chunks that may tell a field; looked for once in a message, for all its items. */
export function carriers(field: Field, chunks: readonly Chunk[]): readonly Chunk[] {
  let known = carried.get(chunks);
  if (known === undefined) {
    const of = (one: Field): Chunk[] => chunks.filter((chunk) => CARRIERS[one].includes(chunk.kind));
    known = eachField(of);
    carried.set(chunks, known);
  }
  return known[field];
}

/** What a chunk tells, in the words that `told` uses of an item. */
export function meaningOf(chunk: Chunk): string {
  switch (chunk.kind) {
    case 'act':
      return chunk.act;
    case 'item':
      return String(chunk.item);
    case 'part':
      return chunk.part;
    case 'count':
      return String(chunk.count);
    case 'place':
      return chunk.place;
    case 'condition':
      return chunk.condition;
    case 'remedy':
      return chunk.remedy;
    case 'process':
      return chunk.process;
    case 'supplier':
      return chunk.supplier;
    case 'owner':
      return chunk.owner;
    case 'stored':
      return chunk.stored;
    case 'money':
      return String(chunk.cost.amount);
    case 'date':
      return chunk.date;
    case 'measure':
      return String(chunk.value);
    case 'machine':
    case 'quantity':
    case 'topic':
    case 'denial':
    case 'correction':
    case 'pronoun':
    case 'also':
    case 'aside':
    case 'break':
    case 'and':
    case 'of':
    case 'article':
    case 'copula':
    case 'word':
      return '';
  }
}

const NOTHING: readonly string[] = [];
const listed = (value: string | number | null): readonly string[] =>
  value === null ? NOTHING : [String(value)];

/** What an item says in a field: nothing, one value, or several. */
export function told(item: ItemReading, field: Field): readonly string[] {
  switch (field) {
    case 'conditions':
    case 'processes':
    case 'place':
      return item[field];
    case 'cost':
      return listed(item.cost?.amount ?? null);
    case 'readings':
      return item.readings.length === 0 ? NOTHING : item.readings.map(({ value }) => String(value));
    case 'act':
    case 'item':
    case 'part':
    case 'count':
    case 'remedy':
    case 'supplier':
    case 'stored':
    case 'outcome':
    case 'due':
      return listed(item[field]);
  }
}

/** The chunk that names each item: the next one of that name; null where it was named by a word that points, or not at all. */
export function anchors(items: readonly ItemReading[], chunks: readonly Chunk[]): (Chunk | null)[] {
  const taken = new Set<Chunk>();
  return items.map((item) => {
    const number = item.item === null ? undefined : find(chunks, taken, 'item', String(item.item));
    const named = number ?? (item.part === null ? undefined : find(chunks, taken, 'part', item.part));
    if (named !== undefined) taken.add(named);
    return named ?? null;
  });
}

/** By its name; of a compound ("bottom yoke bolt") by the name of a piece of it. */
function find(
  chunks: readonly Chunk[],
  taken: ReadonlySet<Chunk>,
  kind: 'item' | 'part',
  name: string,
): Chunk | undefined {
  const open = chunks.filter((chunk) => chunk.kind === kind && !taken.has(chunk));
  return (
    open.find((chunk) => meaningOf(chunk) === name) ??
    (kind === 'part' ? open.findLast((chunk) => name.includes(meaningOf(chunk))) : undefined)
  );
}

const meaningIn = (field: Field, chunk: Chunk): string =>
  field === 'outcome' && chunk.kind === 'act' ? (chunk.outcome ?? '') : meaningOf(chunk);

const distance = (a: Chunk, b: Chunk): number =>
  a.from >= b.to ? a.from - b.to : b.from >= a.to ? b.from - a.to : 0;

/** Of the chunks that tell `value` in a field, the one nearest to where the item is named; null where none does. */
export function bearer(
  field: Field,
  value: string,
  anchor: Chunk | null,
  chunks: readonly Chunk[],
): Chunk | null {
  let nearest: Chunk | null = null;
  for (const chunk of carriers(field, chunks)) {
    if (meaningIn(field, chunk) !== value) continue;
    if (anchor === null) return chunk;
    if (nearest === null || distance(chunk, anchor) < distance(nearest, anchor)) nearest = chunk;
  }
  return nearest;
}
