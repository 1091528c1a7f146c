import { describe, expect, test } from 'vitest';
import { readMessage } from '../../../src/hearing/read-message.js';
import { rivals } from '../../../src/hearing/sureness/rivals.js';
import type { Field } from '../../../src/hearing/sureness/evidence.js';

const TODAY = '2026-03-02';

function rivalsIn(said: string, field: Field, at = 0): unknown[] {
  const reading = readMessage(said, { today: TODAY });
  const item = reading.items[at];
  if (item === undefined) throw new Error(`nothing was read in: ${said}`);
  return rivals(reading, item, field, TODAY).flatMap((rival) => Object.values(rival));
}

describe('what else a message could tell', () => {
  test('is what else of the kind stands in it', () => {
    expect(rivalsIn('footrest bent, horn broken', 'part')).toEqual(['horn']);
    expect(rivalsIn('footrest bent, horn broken', 'part', 1)).toEqual(['footrest']);
  });

  test('is each thing once, and never what was read', () => {
    expect(rivalsIn('footrest bent, horn broken, footrest rusty', 'part')).toEqual(['horn']);
    expect(rivalsIn('footrest bent', 'part')).toEqual([]);
  });

  test('is what sounds like it first, for a thing of no known name', () => {
    expect(rivalsIn('rockr spindel scored', 'part')[0]).toBe('rocker shaft');
  });

  test('goes for days and sums', () => {
    expect(rivalsIn('sent the tank to the painter, back by the 20th or the 24th', 'due')).toHaveLength(1);
    expect(rivalsIn('tank to the painter £40, horn to the gauge man £60', 'cost')).toEqual([
      { amount: 60, currency: 'GBP', about: false, each: false, vat: null },
    ]);
  });

  test('is what a word of doing may have decided, where nothing was taken for a decision', () => {
    const remedies = (said: string): unknown[] => {
      const reading = readMessage(said, { today: TODAY });
      const item = { ...reading.items[0]!, remedy: null };
      return rivals(reading, item, 'remedy', TODAY).map(({ remedy }) => remedy);
    };
    expect(remedies('flywheel out of true, zorble it here')).toEqual(['repair']);
    expect(remedies('flywheel out of true')).toEqual([]);
  });

  test('is nothing for what is said in sets', () => {
    expect(rivalsIn('footrest bent, horn broken', 'conditions')).toEqual([]);
  });
});
