import { describe, expect, test } from 'vitest';
import {
  dueDateRight,
  findsNoDate,
  measureRight,
  moneyRight,
  type DueDateCase,
  type MeasureCase,
  type MoneyCase,
} from '../support/hearing-measures.js';
import { readMessage } from '../../src/hearing/read-message.js';
import { reference } from '../support/reference.js';

const share = <T>(cases: readonly T[], right: (one: T) => boolean): number =>
  cases.filter(right).length / cases.length;

// Duckling (BSD-3-Clause), Recognizers-Text (MIT), chrono (MIT): see tests/references/README.md.
describe('against phrases of published date, money and measure readers', () => {
  test('due dates: 95 % or more', () => {
    expect(share(reference<DueDateCase[]>('hearing-due-dates.json'), dueDateRight)).toBeGreaterThanOrEqual(
      0.95,
    );
  });

  test('no date where none is', () => {
    const found = reference<{ text: string }[]>('hearing-date-negatives.json').filter(
      ({ text }) => !findsNoDate(text, '2026-03-02'),
    );
    expect(found).toEqual([]);
  });

  test('sterling: 90 % or more', () => {
    expect(share(reference<MoneyCase[]>('hearing-money.json'), moneyRight)).toBeGreaterThanOrEqual(0.9);
  });

  test('measurements: 85 % or more', () => {
    expect(share(reference<MeasureCase[]>('hearing-measurements.json'), measureRight)).toBeGreaterThanOrEqual(
      0.85,
    );
  });
});

// Slang for pounds in round sums: common practice, no source.
describe('notes', () => {
  const costs = (text: string) =>
    readMessage(text, { today: '2026-03-02' }).items.flatMap(({ cost }) =>
      cost === null ? [] : [cost.amount],
    );

  test.each([
    ['tank painted, fifty notes', 50],
    ['magneto rewound for 120 notes', 120],
    ['new chain, 20 notes', 20],
  ])('that are pounds: %s', (text, amount) => {
    expect(costs(text)).toEqual([amount]);
  });

  test.each([
    'tank has 2 notes taped to it',
    'gearbox worn, see my 2 notes',
    'forks bent, three notes on the label',
    'carb leaking, 10 notes in the file',
    'tank dented, 25 notes so far',
  ])('that are written: %s', (text) => {
    expect(costs(text)).toEqual([]);
  });
});
