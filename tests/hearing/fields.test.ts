import { describe, expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import { reference } from '../support/reference.js';

const first = (text: string, spoken = false) =>
  readMessage(text, { today: '2026-03-02', ...(spoken ? { spoken } : {}) }).items[0];

// GOV.UK bank holidays, 2019-2028, Open Government Licence v3.0 (see tests/references/README.md).
const { divisions } = reference<{
  ukBankHolidays: { divisions: Record<string, Record<string, { date: string; title: string }[]>> };
}>('workdays.json').ukBankHolidays;
const easterDays = Object.entries(divisions['england-and-wales'] ?? {}).flatMap(([year, holidays]) =>
  holidays
    .filter(({ title }) => title === 'good_friday' || title === 'easter_monday')
    .map((day) => ({ year, ...day })),
);

describe('days with names of their own', () => {
  it('are looked up for ten years', () => {
    expect(easterDays).toHaveLength(20);
  });
  it.each(easterDays)('$title of $year is $date', ({ year, title, date }) => {
    const { items } = readMessage(`tank promised for ${title.replace('_', ' ')}`, { today: `${year}-01-15` });
    expect(items[0]).toMatchObject({ act: 'promised', due: date });
  });
  it.each([
    ['tank promised for Good Friday', '2026-04-03'],
    ['levers ready the last day of March', '2026-03-31'],
    ['seat promised for the week after next', '2026-03-20'],
    ['forks will be ready by close of play Thursday', '2026-03-05'],
    ['tank promised Thursday instead of Tuesday', '2026-03-05'],
  ])('%s', (text, due) => {
    expect(first(text)).toMatchObject({ act: 'promised', due });
  });
});

describe('what a value is of', () => {
  it('keeps what was measured, not what the book has', () => {
    expect(first('spring is 2.125 inches, should be 2.25')?.readings).toMatchObject([
      { value: 2.125, unit: 'in' },
    ]);
    expect(first('bore worn 4 thou, rebore to 20 over')?.readings).toMatchObject([
      { value: 4, unit: 'thou' },
    ]);
  });
  it('counts a new pair', () => {
    expect(first('left fork stanchion pitted, new pair')).toMatchObject({ remedy: 'replace', count: 2 });
  });
});

describe('who does the work', () => {
  it.each(['chrome the levers - Gadsley', 'levers: chrome (Gadsley)', 'get Gadsley to chrome the levers'])(
    '%s',
    (text) => {
      expect(first(text)).toMatchObject({
        part: 'lever',
        supplier: 'Gadsley',
        processes: ['chrome'],
        remedy: 'send-out',
      });
    },
  );
  it('gives one firm and one day to all that was ordered', () => {
    const { items } = readMessage(
      'Ordered two pistons at £46 each and a set of rings at £18, Arkle, delivery on 24/3',
      {
        today: '2026-03-02',
      },
    );
    expect(items).toHaveLength(2);
    for (const item of items)
      expect(item).toMatchObject({ act: 'ordered', supplier: 'Arkle', due: '2026-03-24' });
  });
});

it('leaves words of the trade and of talk as they were heard', () => {
  const heard = 'fork bushes upper ones worn lower ones good';
  expect(readMessage(heard, { today: '2026-03-02', spoken: true }).heard).toBe(heard);
});

it.each(['the tyre has done 12k miles', 'the engine revs to 7k rpm', 'the suppressor is 10k ohms'])(
  'a thousand of something else is no sum: “%s”',
  (text) => {
    const { items } = readMessage(text, { today: '2026-03-02' });
    expect(items.map(({ cost }) => cost)).toEqual(items.map(() => null));
    expect(items).toHaveLength(1);
  },
);
