import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { backUpName, daysKept, isUnfinished } from '../../../config/back-up/names.js';
import { outlived } from '../../../config/back-up/pruning.js';

const day = (n: number): string =>
  DateTime.fromISO('2026-01-05', { zone: 'utc' }).plus({ days: n }).toISODate() ?? '';

/** Keeps a back-up on each of these days, pruning after each, and gives what is there at the end. */
function afterAll(days: readonly number[]): string[] {
  return days.reduce<string[]>((kept, n) => {
    const all = [...kept, day(n)];
    const old = outlived(all);
    return all.filter((each) => !old.includes(each));
  }, []);
}

describe('pruning', () => {
  it('leaves seven days and the newest of each of the four weeks before them, after daily back-ups', () => {
    // By the calendar: 5 January 2026 is a Monday, so the last is Thursday 5 March; the seven begin on a Friday, of whose
    // week Thursday is the newest before them, and of the three weeks before that their Sundays.
    expect(afterAll(Array.from({ length: 60 }, (_, n) => n))).toEqual([
      ...['2026-02-08', '2026-02-15', '2026-02-22', '2026-02-26'],
      ...[27, 28].map((each) => `2026-02-${each}`),
      ...[1, 2, 3, 4, 5].map((each) => `2026-03-0${each}`),
    ]);
  });

  it('keeps all of the first week', () => {
    expect(afterAll([0, 1, 2, 3, 4, 5, 6])).toHaveLength(7);
  });

  it('with gaps of any kind always leaves the seven newest, four older ones at most, and none of the same week', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(400), { minLength: 1, maxLength: 120 }), (some) => {
        const days = [...some].sort((a, b) => a - b);
        const kept = afterAll(days);
        const newest = days.slice(-7).map(day);
        expect(kept.slice(-7)).toEqual(newest);
        const older = kept.slice(0, -7);
        expect(older.length).toBeLessThanOrEqual(4);
        const weeks = older.map((each) => DateTime.fromISO(each).startOf('week').toISODate());
        expect(new Set(weeks).size).toBe(older.length);
      }),
    );
  });
});

describe('names', () => {
  it('of one shop are not taken for another’s, nor other files for back-ups', () => {
    const names = [
      backUpName('north', '2026-03-02'),
      backUpName('north-2', '2026-03-03'),
      backUpName('north', '2026-03-01'),
      'benchhand-north-2026-03-02T081530.tar.gz',
      'benchhand-north-2026-03-04.tar.gz.part-Ab12Cd',
      'letter.txt',
    ];
    expect(daysKept(names, 'north')).toEqual(['2026-03-01', '2026-03-02']);
    expect(names.filter((name) => isUnfinished(name, 'north'))).toEqual([names[4]]);
    expect(names.filter((name) => isUnfinished(name, 'north-2'))).toEqual([]);
  });
});
