import { expect, it } from 'vitest';
import { dayIn } from '../../src/hearing/instructions/day.js';

it.each(['in 10000 years', 'in 99999999 days', '4 May 0012', '1/1/9999', 'in 1e300 weeks'])(
  'takes %j for no day, or for one that a restoration may live to see',
  (words) => {
    const day = dayIn(words, '2026-03-02');
    if (day !== null) expect(day).toMatch(/^20[2-5]\d-\d\d-\d\d$/);
  },
);

it('still hears a date some years ahead', () => {
  expect(dayIn('in 2 years', '2026-03-02')).toBe('2028-03-02');
});
