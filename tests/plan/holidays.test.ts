import { describe, expect, it } from 'vitest';
import { isoWeekday, dateOfDay, dayNumber } from '../../src/plan/days.js';
import { holidaysOf, type HolidayPlace, type PublicHolidays } from '../../src/plan/holidays.js';
import { reference } from '../support/reference.js';

// GOV.UK bank holidays, 2019-2028, Open Government Licence v3.0 (see tests/references/README.md).
const { divisions } = reference<{
  ukBankHolidays: { divisions: Record<string, Record<string, { date: string }[]>> };
}>('workdays.json').ukBankHolidays;

const REGIONS: Record<string, string> = {
  'england-and-wales': 'ENG',
  scotland: 'SCT',
  'northern-ireland': 'NIR',
};

function known(place: HolidayPlace, changes = {}): PublicHolidays {
  const found = holidaysOf(place, changes);
  if (!found.ok) throw new Error(found.reason);
  return found.holidays;
}

function weekdaysOff(holidays: PublicHolidays, year: number): string[] {
  const days: string[] = [];
  for (let day = dayNumber(`${year}-01-01`); day <= dayNumber(`${year}-12-31`); day += 1) {
    if (isoWeekday(day) <= 5 && holidays.has(dateOfDay(day))) days.push(dateOfDay(day));
  }
  return days;
}

const rows = Object.entries(divisions).flatMap(([division, years]) =>
  Object.entries(years).map(([year, holidays]) => ({ division, year: Number(year), holidays })),
);

describe('public holidays', () => {
  it.each(rows)('$division in $year as GOV.UK gives them', ({ division, year, holidays }) => {
    const found = weekdaysOff(known({ country: 'GB', region: REGIONS[division] ?? '' }), year);
    expect(found).toEqual(holidays.map((holiday) => holiday.date).sort());
  });

  it('has them in every year to come', () => {
    for (const place of [
      { country: 'GB', region: 'ENG' },
      { country: 'DE', region: 'BY' },
      { country: 'FR' },
    ]) {
      for (let year = 2029; year <= 2060; year += 1) {
        const off = weekdaysOff(known(place), year);
        expect(off.length).toBeGreaterThanOrEqual(5);
        // Easter Monday is a holiday in all three; computus dates from the US Naval Observatory's table (from memory).
        if (year === 2030) expect(off).toContain('2030-04-22');
        if (year === 2038) expect(off).toContain('2038-04-26');
      }
    }
  });

  it('takes the shop’s own corrections', () => {
    const holidays = known(
      { country: 'GB', region: 'ENG' },
      { also: ['2031-06-02'], except: ['2031-12-25'] },
    );
    expect(holidays.has('2031-06-02')).toBe(true);
    expect(holidays.has('2031-12-25')).toBe(false);
    expect(holidays.has('2031-12-26')).toBe(true);
  });

  it('refuses a place that it doesn’t know, and says what would do', () => {
    expect(holidaysOf({ country: 'Britain' })).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/two letters/) as string,
    });
    expect(holidaysOf({ country: 'GB', region: 'Yorkshire' })).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/ENG/) as string,
    });
    expect(holidaysOf({ country: 'IE', region: 'ENG' })).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/left out/) as string,
    });
  });
});
