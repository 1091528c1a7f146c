import { expect, test } from 'vitest';
import { allSigns, chanceWrong, weights, type Weights } from '../../../src/hearing/sureness/chance.js';
import { understood } from '../../../src/hearing/read-message.js';
import { fieldSigns } from '../../../src/hearing/sureness/field-signs.js';
import { surroundings } from '../../../src/hearing/sureness/surroundings.js';

test('a chance is the logistic of the sum of all signs by their weights, those of the field alone among them', () => {
  const { reading, evidence } = understood(
    'footrest bent and a wobbly grommet, straighten it here, horn broken, about £40 by Friday',
    { today: '2026-03-02' },
  );
  const fields = fieldSigns(surroundings(reading.items, evidence));
  expect(fields.length).toBeGreaterThan(20);
  for (const one of fields) {
    const table = one.absent ? weights.untold : weights.told;
    const sum = allSigns(one).reduce((total, [sign, value]) => total + (table[sign] ?? 0) * value, 0);
    expect(chanceWrong(one)).toBeCloseTo(1 / (1 + Math.exp(-sum)), 12);
    const names = [...one.shared, ...one.own].map(([sign]) => sign);
    expect(new Set(names).size).toBe(names.length);
  }
});

test('a weight of one field alone counts there and nowhere else', () => {
  const by: Weights = {
    mark: { told: 0.5, untold: 0.5 },
    told: { spoken: 1, 'spoken of part': 2 },
    untold: {},
  };
  const sure = (field: 'part' | 'act') =>
    chanceWrong({ item: 0, field, absent: false, shared: [], own: [['spoken', 1]] }, by);
  expect(sure('part')).toBeCloseTo(1 / (1 + Math.exp(-3)), 12);
  expect(sure('act')).toBeCloseTo(1 / (1 + Math.exp(-1)), 12);
});
