import { existsSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { understood } from '../../src/hearing/read-message.js';
import type { Reading } from '../../src/hearing/reading.js';
import { goldSchema, judge, judgeItems, type Gold, type Judged } from '../../src/hearing/score.js';
import type { Evidence, Field } from '../../src/hearing/sureness/evidence.js';
import { fieldSigns, type FieldSigns } from '../../src/hearing/sureness/field-signs.js';
import { surroundings } from '../../src/hearing/sureness/surroundings.js';

/** One field of one item read: its signs, how many scored fields it stands for, and how many of them are wrong. */
export type FieldCase = FieldSigns & { judged: number; wrong: number; marked: boolean };
/** A message of a corpus: its fields, and what of it no mark can reach (items not read, the machine, questions). */
export type MessageCase = {
  corpus: string;
  text: string;
  fields: FieldCase[];
  beyond: { judged: number; wrong: number };
};

const told = (judged: Judged): boolean => judged.read.length > 0 || judged.gold.length > 0;
const isWrong = ({ read, gold }: Judged): boolean =>
  read.length !== gold.length || read.some((value) => !gold.includes(value));

/** Judges a reading field by field, by its marks before `markUnsure`. */
export function messageCase(corpus: string, gold: Gold, reading: Reading, evidence: Evidence): MessageCase {
  const items = judgeItems(reading, gold);
  const all = judge(reading, gold).filter(told);
  const fields = fieldSigns(surroundings(reading.items, evidence)).map((one): FieldCase => {
    const own = (items.find(({ item }) => item === one.item)?.judged ?? []).filter(
      (judged) => told(judged) && judged.field.split(' ')[0] === one.field,
    );
    // The message's act is its first item's.
    const top =
      one.item === 0 && one.field === 'act' ? all.filter(({ field }) => field === 'message act') : [];
    const mine = [...own, ...top];
    const marked = reading.items[one.item]?.unsure.includes(one.field satisfies Field) ?? false;
    return { ...one, judged: mine.length, wrong: mine.filter(isWrong).length, marked };
  });
  const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);
  return {
    corpus,
    text: gold.text,
    fields,
    beyond: {
      judged: all.length - sum(fields.map(({ judged }) => judged)),
      wrong: all.filter(isWrong).length - sum(fields.map(({ wrong }) => wrong)),
    },
  };
}

const lines = (text: string): unknown[] =>
  text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as unknown);

const goldsOf = (folder: string, corpus: string): Gold[] => {
  const file = `${folder}/${corpus}.jsonl`;
  return existsSync(file) ? lines(readFileSync(file, 'utf8')).map((line) => goldSchema.parse(line)) : [];
};

/** A corpus as the reader reads it now. */
export const readNow = (folder: string, corpus: string): MessageCase[] =>
  goldsOf(folder, corpus).map((gold) => {
    const { reading, evidence } = understood(gold.text, {
      today: gold.today,
      ...(gold.spoken === undefined ? {} : { spoken: gold.spoken }),
      ...(gold.known === undefined ? {} : { known: gold.known }),
    });
    return messageCase(corpus, gold, reading, evidence);
  });

type Earlier = { reader: string; corpus: string; text: string; gold?: unknown; reading: Reading } & Evidence;

/** Messages as earlier forms of the reader read them, before it was fitted to them: corpus/README.md. */
export function readEarlier(folder: string): MessageCase[] {
  const golds = new Map<string, Gold>();
  for (const corpus of ['tuning', 'second-draft'])
    for (const gold of goldsOf(folder, corpus)) golds.set(`${corpus} ${gold.text}`, gold);
  const text = gunzipSync(readFileSync(`${folder}/earlier-readings.jsonl.gz`)).toString('utf8');
  return (lines(text) as Earlier[]).flatMap(
    ({ reader, corpus, text: said, gold: own, reading, tokens, chunks, spoken }) => {
      const gold = own === undefined ? golds.get(`${corpus} ${said}`) : goldSchema.parse(own);
      const evidence: Evidence = { tokens, chunks, spoken, doubted: new Set() };
      return gold === undefined ? [] : [messageCase(`${corpus} by ${reader}`, gold, reading, evidence)];
    },
  );
}
