import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readWords } from '../../src/record/index.js';
import type { ShopRecord } from '../../src/record/types.js';
import { anAppend, anyShop, event, useBench } from './support.js';

const bench = useBench();

/** One record as two processes have it. */
function two(): [ShopRecord, ShopRecord] {
  const shop = anyShop();
  return [bench.open({ shop }), bench.open({ shop })];
}

type Step =
  | { do: 'append'; by: 0 | 1; ids: string[] }
  | { do: 'forget'; by: 0 | 1; ids: string[] }
  | { do: 'put'; by: 0 | 1; id: string }
  | { do: 'read'; by: 0 | 1 };

const by = fc.constantFrom<0 | 1>(0, 1);
const id = fc.constantFrom('a', 'b', 'c', 'd', 'e');
const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({ do: fc.constant('append' as const), by, ids: fc.uniqueArray(id, { maxLength: 3 }) }),
  fc.record({
    do: fc.constant('forget' as const),
    by,
    ids: fc.uniqueArray(id, { minLength: 1, maxLength: 2 }),
  }),
  fc.record({ do: fc.constant('put' as const), by, id }),
  fc.record({ do: fc.constant('read' as const), by }),
);

describe('words kept in a process', () => {
  it('are those in the record, whoever appends, changes and forgets meanwhile', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 25 }), async (steps) => {
        const records = two();
        let version = 0;
        for (const [index, each] of steps.entries()) {
          const record = records[each.by];
          if (each.do === 'append') {
            const texts = Object.fromEntries(each.ids.map((name) => [`${name}${index}`, `said in ${index}`]));
            const events = [event({ text: null, deep: [{ ids: Object.keys(texts) }] })];
            await record.append(anAppend({ expectedVersion: version, events, texts }));
            version += 1;
          } else if (each.do === 'forget') {
            await record.forgetTexts(
              'job-1',
              [...(await record.texts('job-1')).keys()].slice(0, each.ids.length),
            );
          } else if (each.do === 'put') {
            const [first = 'x'] = (await record.texts('job-1')).keys();
            await record.putText('job-1', first, `put in ${index}`);
          } else {
            expect(await readWords(record, 'job-1')).toEqual(await record.texts('job-1'));
          }
        }
        for (const record of records)
          expect(await readWords(record, 'job-1')).toEqual(await record.texts('job-1'));
      }),
      { numRuns: 60 },
    );
  });

  it('are read again only as far as newer events name them', async () => {
    const [record] = two();
    await record.append(anAppend({ events: [event({ text: 'a' })], texts: { a: 'one' } }));
    await readWords(record, 'job-1');
    let wholes = 0;
    const counted: ShopRecord = Object.assign(record, {
      texts: () => {
        wholes += 1;
        return Promise.resolve(new Map());
      },
    });
    await counted.append(
      anAppend({ expectedVersion: 1, events: [event({ text: 'b' })], texts: { b: 'two' } }),
    );
    expect([...(await readWords(counted, 'job-1'))]).toEqual([
      ['a', 'one'],
      ['b', 'two'],
    ]);
    expect(wholes).toBe(0);
    await counted.forgetTexts('job-1', ['a']);
    await readWords(counted, 'job-1');
    expect(wholes).toBe(1);
  });
});
