import { z } from 'zod';
import { lexicon } from '../trade/lexicon/load.js';
import { knownSchema } from './listener.js';
import type { Reading } from './reading.js';

const names = z.union([z.string(), z.array(z.string())]).nullable();
const goldItemSchema = z.looseObject({
  act: z.string().optional(),
  part: names.optional(),
  unsure: z.array(z.string()).optional(),
});

/** A message with the reading it should get; what is empty in the reading may be left out. */
export const goldSchema = z.object({
  text: z.string(),
  today: z.string(),
  spoken: z.boolean().optional(),
  known: knownSchema.optional(),
  reading: z.looseObject({
    act: z.string(),
    machine: z.string().nullable().optional(),
    items: z.array(goldItemSchema).default([]),
    question: z.looseObject({ part: names.optional() }).nullable().optional(),
  }),
});
export type Gold = z.output<typeof goldSchema>;

type Facts = Map<string, string[]>;
/** One field of one message: what was read, what should have been, and whether the reader was sure. */
export type Judged = { field: string; read: string[]; gold: string[]; unsure: boolean };

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[-’']/g, (sign) => (sign === '-' ? ' ' : ''))
    .replace(/^the /, '')
    .replace(/\s+/g, ' ')
    .trim();

const joined = (text: string): string => plain(text).replace(/ /g, '');

const NAMED = new Set(['supplier', 'machine', 'stored', 'part']);

const plainText = (value: unknown): string =>
  typeof value === 'string' ? value : typeof value === 'number' ? String(value) : '';

function valueFacts(field: string, value: unknown): string[] {
  if (value === null || value === undefined) return [];
  if (field === 'readings' && Array.isArray(value))
    return (value as { value: number; unit: string }[]).map((one) => `${one.value} ${one.unit}`);
  if (Array.isArray(value)) return value.map((member) => joined(plainText(member)));
  if (NAMED.has(field)) return [joined(plainText(value))];
  return [plainText(value)];
}

const FIELDS = [
  'act',
  'machine',
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
  'due',
  'readings',
] as const;

/** What one item or question says, by field. */
function facts(item: Record<string, unknown>): Facts {
  const found: Facts = new Map();
  for (const field of FIELDS) found.set(field, valueFacts(field, item[field]));
  const cost = item['cost'] as
    | { amount: number; currency: string; about?: boolean; each?: boolean; vat?: string | null }
    | null
    | undefined;
  found.set('cost', cost == null ? [] : [`${cost.amount} ${cost.currency}`]);
  found.set('cost about', cost?.about === true ? ['about'] : []);
  found.set('cost each', cost?.each === true ? ['each'] : []);
  found.set('cost vat', cost?.vat == null ? [] : [cost.vat]);
  return found;
}

/** The lexicon's own name for a part that the gold calls by another. */
const canonical = (name: string): string[] => {
  const part = lexicon.byName(name);
  return part === undefined ? [] : [part.name];
};

const partNames = (item: Record<string, unknown>): string[] => {
  const part = item['part'] as string | string[] | null | undefined;
  const all = Array.isArray(part) ? part : part == null ? [] : [part];
  return [...new Set([...all, ...all.flatMap((name) => canonical(name))].map(joined))];
};

/** How well an item read fits a gold one: the part above all. */
function likeness(read: Record<string, unknown>, gold: Record<string, unknown>): number {
  const want = partNames(gold);
  const got = partNames(read)[0];
  const part =
    got !== undefined && want.includes(got) ? 100 : got === undefined && want.length === 0 ? 30 : 0;
  const [a, b] = [facts(read), facts(gold)];
  let same = 0;
  for (const [field, values] of b) same += values.filter((value) => a.get(field)?.includes(value)).length;
  return part + same;
}

type Pair = [read: Record<string, unknown> | null, gold: Record<string, unknown> | null];

function align(read: Record<string, unknown>[], gold: Record<string, unknown>[]): Pair[] {
  const pairs: Pair[] = [];
  const left = new Set(read.keys());
  const wanted = new Set(gold.keys());
  const scored = read.flatMap((one, i) =>
    gold.map((other, j) => ({ i, j, score: likeness(one, other) - Math.abs(i - j) * 0.1 })),
  );
  for (const { i, j, score } of scored.sort((x, y) => y.score - x.score)) {
    if (!left.has(i) || !wanted.has(j) || score <= 0) continue;
    pairs.push([read[i] ?? null, gold[j] ?? null]);
    left.delete(i);
    wanted.delete(j);
  }
  for (const i of left) pairs.push([read[i] ?? null, null]);
  for (const j of wanted) pairs.push([null, gold[j] ?? null]);
  return pairs;
}

function judgePair([read, gold]: Pair, prefix = ''): Judged[] {
  const open = new Set((gold?.['unsure'] as string[] | undefined) ?? []);
  const unsure = new Set((read?.['unsure'] as string[] | undefined) ?? []);
  const got = facts(read ?? {});
  const want = facts({ ...(gold ?? {}), part: null });
  const wantedParts = gold === null ? [] : partNames(gold);
  const gotPart = read === null ? [] : partNames(read);
  got.set('part', gotPart);
  want.set(
    'part',
    wantedParts.length === 0
      ? []
      : gotPart[0] !== undefined && wantedParts.includes(gotPart[0])
        ? gotPart
        : wantedParts.slice(0, 1),
  );
  return [...got.keys()]
    .filter((field) => !open.has(field.split(' ')[0] ?? field))
    .map((field) => ({
      field: prefix + field,
      read: got.get(field) ?? [],
      gold: want.get(field) ?? [],
      unsure: unsure.has(field.split(' ')[0] ?? field),
    }))
    .filter(
      (judged) =>
        judged.read.length > 0 ||
        judged.gold.length > 0 ||
        // A question about a field of which nothing was said is a question all the same.
        (judged.unsure && !judged.field.includes(' ')),
    );
}

const questionFacts = (
  question: Record<string, unknown> | null | undefined,
): Record<string, unknown> | null =>
  question == null
    ? null
    : {
        act: question['about'],
        remedy: question['gate'],
        part: question['part'],
        supplier: question['supplier'],
      };

/** Each item read and each that should have been, field by field; `item` is its place in the reading, null where it was not read. */
export function judgeItems(reading: Reading, gold: Gold): { item: number | null; judged: Judged[] }[] {
  const read: Record<string, unknown>[] = reading.items;
  return align(read, gold.reading.items).map((pair) => ({
    item: pair[0] === null ? null : read.indexOf(pair[0]),
    judged: judgePair(pair),
  }));
}

/**
 * All fields of one message, judged. Fields that the gold calls unsure are not. A field empty in both is judged only where
 * it was marked unsure; what an item of the gold tells that was read as no item can't be marked, and is wrong for sure.
 */
export function judge(reading: Reading, gold: Gold): Judged[] {
  const top: Judged[] = [
    {
      field: 'message act',
      read: [reading.act],
      gold: [gold.reading.act],
      // The message's act is its first item's.
      unsure: reading.items[0]?.unsure.includes('act') ?? false,
    },
    {
      field: 'machine',
      read: valueFacts('machine', reading.machine),
      gold: valueFacts('machine', gold.reading.machine),
      unsure: false,
    },
  ].filter((judged) => judged.read.length > 0 || judged.gold.length > 0);
  const items = judgeItems(reading, gold).flatMap(({ judged }) => judged);
  const asked: Pair = [questionFacts(reading.question), questionFacts(gold.reading.question)];
  return [...top, ...items, ...(asked[0] === null && asked[1] === null ? [] : judgePair(asked, 'question '))];
}

export type Tally = { right: number; read: number; gold: number };
export type Score = {
  messages: number;
  total: Tally;
  fields: Map<string, Tally>;
  /** Of all judged fields: wrong without being marked unsure; marked unsure. */
  certainlyWrong: number;
  markedUnsure: number;
  judged: number;
  worst: { text: string; wrong: Judged[] }[];
};

const rightOf = (judged: Judged): number => judged.read.filter((value) => judged.gold.includes(value)).length;

/** Scores readings against gold; `worst` holds the messages with most wrong fields first. */
export function score(golds: readonly Gold[], read: (gold: Gold) => Reading): Score {
  const result: Score = {
    messages: golds.length,
    total: { right: 0, read: 0, gold: 0 },
    fields: new Map(),
    certainlyWrong: 0,
    markedUnsure: 0,
    judged: 0,
    worst: [],
  };
  for (const gold of golds) {
    const judgements = judge(read(gold), gold);
    const wrong: Judged[] = [];
    for (const judged of judgements) {
      const right = rightOf(judged);
      const tally = result.fields.get(judged.field) ?? { right: 0, read: 0, gold: 0 };
      for (const one of [tally, result.total]) {
        one.right += right;
        one.read += judged.read.length;
        one.gold += judged.gold.length;
      }
      result.fields.set(judged.field, tally);
      const bad = right < judged.read.length || right < judged.gold.length;
      result.judged += 1;
      if (judged.unsure) result.markedUnsure += 1;
      if (bad && !judged.unsure) result.certainlyWrong += 1;
      if (bad) wrong.push(judged);
    }
    if (wrong.length > 0) result.worst.push({ text: gold.text, wrong });
  }
  result.worst.sort((a, b) => b.wrong.length - a.wrong.length);
  return result;
}

export const precision = (tally: Tally): number => (tally.read === 0 ? 1 : tally.right / tally.read);
export const recall = (tally: Tally): number => (tally.gold === 0 ? 1 : tally.right / tally.gold);
/** Harmonic mean of precision and recall (van Rijsbergen 1979). */
export const f1 = (tally: Tally): number =>
  tally.read + tally.gold === 0 ? 1 : (2 * tally.right) / (tally.read + tally.gold);
