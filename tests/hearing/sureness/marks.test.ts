import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readMessage, understood } from '../../../src/hearing/read-message.js';
import { chanceWrong } from '../../../src/hearing/sureness/chance.js';
import { FIELDS } from '../../../src/hearing/sureness/evidence.js';
import { fieldSigns } from '../../../src/hearing/sureness/field-signs.js';
import { markUnsure } from '../../../src/hearing/sureness/mark-unsure.js';
import { surroundings } from '../../../src/hearing/sureness/surroundings.js';
import { lexicon } from '../../../src/trade/lexicon/load.js';

const TODAY = '2026-03-02';
const word = fc.constantFrom(
  ...'the both nearside no not and , . : pitted worn bent new send to plater quid 40 £ 3/8 10.5 thou by friday week bag 14'.split(
    ' ',
  ),
  ...'fitted back says same with other side zorble wherever owner happy but sorry took off in box it them might or'.split(
    ' ',
  ),
  ...lexicon.parts.filter((_, index) => index % 40 === 0).map((part) => part.name),
);
const talk = fc.array(word, { maxLength: 30 }).map((words) => words.join(' '));

const withoutMarks = <T extends { unsure: string[] }>(items: readonly T[]): Omit<T, 'unsure'>[] =>
  items.map(({ unsure: _, ...said }) => said);

describe('how sure the reader is', () => {
  test('is told by marks alone: what is read stays as it was, and no mark is lost', () => {
    fc.assert(
      fc.property(talk, fc.boolean(), (said, spoken) => {
        const { reading, evidence } = understood(said, { today: TODAY, spoken });
        const marked = markUnsure(reading.items, evidence);
        expect(withoutMarks(marked)).toEqual(withoutMarks(reading.items));
        marked.forEach((item, at) => {
          expect(item.unsure).toEqual(expect.arrayContaining(reading.items[at]?.unsure ?? []));
          expect(new Set(item.unsure).size).toBe(item.unsure.length);
          for (const field of item.unsure) expect(FIELDS).toContain(field);
        });
      }),
      { numRuns: 200 },
    );
  });

  test('is the same each time, and a chance from 0 to 1 for whatever is said', () => {
    fc.assert(
      fc.property(fc.oneof(talk, fc.string({ unit: 'grapheme', maxLength: 120 })), (said) => {
        const { reading, evidence } = understood(said, { today: TODAY });
        expect(markUnsure(reading.items, evidence)).toEqual(markUnsure(reading.items, evidence));
        for (const one of fieldSigns(surroundings(reading.items, evidence))) {
          expect(chanceWrong(one)).toBeGreaterThanOrEqual(0);
          expect(chanceWrong(one)).toBeLessThanOrEqual(1);
          for (const [, value] of [...one.shared, ...one.own]) expect(value > 0 && value <= 1).toBe(true);
          const names = [...one.shared, ...one.own].map(([sign]) => sign);
          expect(new Set(names).size).toBe(names.length);
        }
      }),
      { numRuns: 200 },
    );
  });

  test.each([
    'front stanchion pitted, replace',
    'sent the tank to the painter, back by Friday',
    'nearside footrest bent, straighten it here',
    'took the magneto off, bag 12',
  ])('is full where nothing is out of the way: %s', (said) => {
    expect(readMessage(said, { today: TODAY }).items.flatMap(({ unsure }) => unsure)).toEqual([]);
  });

  test('is less where words near the thing are not accounted for', () => {
    const chance = (said: string): number => {
      const { reading, evidence } = understood(said, { today: TODAY });
      const found = fieldSigns(surroundings(reading.items, evidence)).find(
        (one) => one.item === 0 && one.field === 'part',
      );
      return found === undefined ? 0 : chanceWrong(found);
    };
    expect(chance('the old footrest grommet thingy wobbler pitted')).toBeGreaterThan(
      chance('the footrest pitted'),
    );
  });
});
