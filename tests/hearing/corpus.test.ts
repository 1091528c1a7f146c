import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import type { ItemReading } from '../../src/hearing/reading.js';
import { f1, goldSchema, judge, score, type Gold } from '../../src/hearing/score.js';

const file = new URL('./corpus/tuning.jsonl', import.meta.url);
const golds: Gold[] = readFileSync(file, 'utf8')
  .trim()
  .split('\n')
  .map((line) => goldSchema.parse(JSON.parse(line)));

const read = (gold: Gold) =>
  readMessage(gold.text, {
    today: gold.today,
    ...(gold.spoken === undefined ? {} : { spoken: gold.spoken }),
    ...(gold.known === undefined ? {} : { known: gold.known }),
  });

// Written from the contract alone, by someone who had seen neither the reader nor its lexicon: corpus/README.md.
describe('the tuning half of the corpus', () => {
  test('micro-F1 over all fields is 0.95 or more, of the spoken part 0.90', () => {
    expect(f1(score(golds, read).total)).toBeGreaterThanOrEqual(0.95);
    expect(
      f1(
        score(
          golds.filter((gold) => gold.spoken === true),
          read,
        ).total,
      ),
    ).toBeGreaterThanOrEqual(0.9);
  });

  test('few fields are wrong without being marked unsure, and few are marked', () => {
    const { certainlyWrong, markedUnsure, judged } = score(golds, read);
    expect(certainlyWrong / judged).toBeLessThanOrEqual(0.04);
    expect(markedUnsure / judged).toBeLessThanOrEqual(0.1);
  });
});

describe('the scorer', () => {
  const gold = goldSchema.parse({
    text: 'x',
    today: '2026-03-02',
    reading: {
      act: 'finding',
      items: [
        {
          act: 'finding',
          part: ['fork tube', 'stanchion'],
          conditions: ['pitted', 'bent'],
          unsure: ['count'],
        },
        { act: 'finding', part: 'footrest', remedy: 'replace' },
      ],
    },
  });
  const reading = readMessage('footrest needs replacing. 2 fork stanchions pitted and cracked', {
    today: '2026-03-02',
  });
  const total = score([gold], () => reading);

  test('aligns items by part, takes any of the names, judges sets by their members', () => {
    expect(total.fields.get('part')).toEqual({ right: 2, read: 2, gold: 2 });
    expect(total.fields.get('conditions')).toEqual({ right: 1, read: 2, gold: 2 });
    expect(total.fields.get('remedy')).toEqual({ right: 1, read: 1, gold: 1 });
  });

  test('leaves out what the gold calls unsure, and what is empty in both', () => {
    expect(judge(reading, gold).map((judged) => judged.field)).not.toContain('count');
    expect(total.fields.has('stored')).toBe(false);
  });

  const one = (
    items: ItemReading[],
    wanted: Gold['reading'],
  ): [sureWrong: number, marked: number, of: number] => {
    const total = score([{ text: 'x', today: '2026-03-02', reading: wanted }], () => ({ ...reading, items }));
    return [total.certainlyWrong, total.markedUnsure, total.judged];
  };
  const footrest = readMessage('footrest bent', { today: '2026-03-02' }).items.map((item) => ({
    ...item,
    unsure: [],
  }));
  const marked = (unsure: string[]): ItemReading[] => footrest.map((item) => ({ ...item, unsure }));
  const asRead = { act: 'finding', items: [{ act: 'finding', part: 'footrest', conditions: ['bent'] }] };

  test('a field not read is wrong for sure, unless it was marked', () => {
    const replaced = { ...asRead, items: [{ ...asRead.items[0], remedy: 'replace' }] };
    expect(one(footrest, replaced)).toEqual([1, 0, 5]);
    expect(one(marked(['remedy']), replaced)).toEqual([0, 1, 5]);
  });

  test('a mark on a field of which nothing was said counts as one', () => {
    expect(one(footrest, asRead)).toEqual([0, 0, 4]);
    expect(one(marked(['supplier']), asRead)).toEqual([0, 1, 5]);
  });

  test('the message is as unsure of its act as its first item is', () => {
    expect(one(marked(['act']), asRead)).toEqual([0, 2, 4]);
  });
});
