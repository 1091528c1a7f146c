import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import { readingSchema } from '../../src/hearing/reading.js';
import { lexicon } from '../../src/trade/lexicon/load.js';

const TODAY = '2026-03-02';

const word = fc.constantFrom(
  ...'the both nearside no not and , . pitted worn bent new send to plater quid 40 £ 3/8 10.5 thou by friday week bag 14 12'.split(
    ' ',
  ),
  ...'fitted back from says same with other side ? what where is owner happy but sorry no, took off in box it them'.split(
    ' ',
  ),
  ...lexicon.parts.filter((_, index) => index % 40 === 0).map((part) => part.name),
);
const talk = fc.array(word, { maxLength: 25 }).map((words) => words.join(' '));
const text = fc.oneof(talk, fc.string({ maxLength: 300 }), fc.string({ unit: 'grapheme', maxLength: 200 }));

describe('whatever is said', () => {
  test('is read without a crash into the contract’s shape', () => {
    fc.assert(
      fc.property(text, fc.boolean(), (said, spoken) => {
        const reading = readMessage(said, { today: TODAY, spoken });
        expect(readingSchema.safeParse(reading).success).toBe(true);
        expect(reading.text).toBe(said);
        expect(reading.act).toBe(reading.items[0]?.act ?? (reading.question === null ? 'note' : 'question'));
      }),
      { numRuns: 300 },
    );
  });

  test('is read the same twice', () => {
    fc.assert(
      fc.property(talk, fc.boolean(), (said, spoken) => {
        const listener = { today: TODAY, spoken };
        expect(readMessage(said, listener)).toEqual(readMessage(said, listener));
      }),
      { numRuns: 100 },
    );
  });

  test('gives its items in the order said', () => {
    const parts = [
      'magneto',
      'footrest',
      'primary chain',
      'silencer',
      'headlamp',
      'kickstart spring',
      'saddle',
    ];
    const conditions = ['worn', 'bent', 'cracked', 'rusty', 'seized'];
    const list = fc.tuple(
      fc.shuffledSubarray(parts, { minLength: 1 }),
      fc.array(fc.constantFrom(...conditions), { minLength: 7, maxLength: 7 }),
    );
    fc.assert(
      fc.property(list, ([named, states]) => {
        const said = named.map((part, index) => `${part} ${states[index]}`).join(', ');
        const items = readMessage(said, { today: TODAY }).items;
        expect(items.map((item) => item.part)).toEqual(named);
        expect(items.map((item) => item.conditions)).toEqual(named.map((_, index) => [states[index]]));
      }),
      { numRuns: 100 },
    );
  });

  test.each(['', '   ', '\n', '🙂', '。', '\u0000'])('%j holds nothing: a note without items', (said) => {
    expect(readMessage(said, { today: TODAY })).toMatchObject({ act: 'note', items: [], question: null });
  });

  test('a rant of 4,000 letters is read too', () => {
    const rant = 'the nearside fork leg is bent and the other one cracked '.repeat(72);
    expect(readMessage(rant, { today: TODAY, spoken: true }).items.length).toBeGreaterThan(0);
  });
});
