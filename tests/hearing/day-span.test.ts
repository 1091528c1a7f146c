import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { daySpan } from '../../src/hearing/instructions/day-span.js';

// Days of the week by ISO 8601, reckoned by luxon: 1 July 2026 is a Wednesday.
const TODAY = '2026-07-01';

describe('days that words name', () => {
  it.each([
    ['24 December to 2 January', '2026-12-24', '2027-01-02'],
    ['3 October to 10 October', '2026-10-03', '2026-10-10'],
    ['1-14 October', '2026-10-01', '2026-10-14'],
    ['from 1 to 14 August', '2026-08-01', '2026-08-14'],
    ['first two weeks of August', '2026-08-01', '2026-08-14'],
    ['the second week of August', '2026-08-08', '2026-08-14'],
    ['the last week in July', '2026-07-25', '2026-07-31'],
    ['all of August', '2026-08-01', '2026-08-31'],
    ['February', '2027-02-01', '2027-02-28'],
    ['next week', '2026-07-06', '2026-07-12'],
    ['the week commencing 3 August', '2026-08-03', '2026-08-09'],
    ['for a fortnight from 3 August', '2026-08-03', '2026-08-16'],
    ['for three days', '2026-07-01', '2026-07-03'],
    ['till Monday', '2026-07-01', '2026-07-05'],
    ['on Friday', '2026-07-03', '2026-07-03'],
  ])('“%s”', (words, from, to) => expect(daySpan(words, TODAY)).toEqual({ from, to }));

  it.each(['the crankcases on Monday', 'the first two weeks', 'two weeks in August', 'up shop', ''])(
    '“%s” names none',
    (words) => expect(daySpan(words, TODAY)).toBeNull(),
  );

  it('never end before they begin, and a month is all of its days', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 2026, max: 2040 }), (month, year) => {
        const first = DateTime.utc(year, month, 1);
        const span = daySpan(first.setLocale('en-GB').toFormat('LLLL yyyy'), TODAY);
        expect(span).toEqual({ from: first.toISODate(), to: first.endOf('month').toISODate() });
      }),
    );
  });
});
