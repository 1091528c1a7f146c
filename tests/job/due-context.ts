import type { DueContext } from '../../src/job/due.js';
import type { WorkingCalendar } from '../../src/plan/calendar.js';
import { holidaysOf, NO_HOLIDAYS } from '../../src/plan/holidays.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';

const english = holidaysOf({ country: 'GB', region: 'ENG' });

/** A shop and suppliers with the default hours and England's bank holidays. */
export const calendar = (more: Partial<WorkingCalendar> = {}): WorkingCalendar => ({
  ...{ zone: 'Europe/London', days: [1, 2, 3, 4, 5], hours: { from: '09:00', to: '17:00' }, closed: [] },
  holidays: english.ok ? english.holidays : NO_HOLIDAYS,
  ...more,
});

/** Everybody is in the chat and nothing has been said yet, unless told otherwise. */
export const dueContext = (more: Partial<DueContext> = {}): DueContext => ({
  job: 'job',
  policy: DEFAULT_POLICY,
  shopCalendar: calendar({ hours: { from: '08:00', to: '17:30' } }),
  calendarOf: () => calendar(),
  isLinked: () => true,
  spokenOf: () => null,
  ownerHeardAt: () => null,
  ...more,
});
