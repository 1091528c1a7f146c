import type { WorkingCalendar } from '../../../src/plan/calendar.js';
import { NO_HOLIDAYS } from '../../../src/plan/holidays.js';
import { lognormal } from '../../../src/plan/lead-times/lead-time.js';
import type { ActivityKind, PlanActivity, PlanLink, PlanModel } from '../../../src/plan/model.js';
import { randomFrom } from '../../../src/plan/random.js';

export const weekdays: WorkingCalendar = {
  zone: 'Europe/London',
  days: [1, 2, 3, 4, 5],
  hours: { from: '08:00', to: '16:00' },
  closed: [],
  holidays: NO_HOLIDAYS,
};
export const everyDay: WorkingCalendar = { ...weekdays, days: [1, 2, 3, 4, 5, 6, 7] };

/** An activity with the fields that a test cares about. */
export function activity(id: string, changes: Partial<PlanActivity> = {}): PlanActivity {
  return {
    id,
    kind: 'outside',
    takes: lognormal(10, 0.3),
    calendar: 'shop',
    gate: null,
    line: null,
    item: null,
    step: null,
    supplier: null,
    started: null,
    finished: null,
    notBefore: null,
    ...changes,
  };
}

/** An invented job: lines out and on order, bench steps that wait for them, in layers as a build order has them. */
export function inventedJob(size: number, suppliers: number, seed: number): PlanModel {
  const random = randomFrom(seed);
  const pick = (many: number): number => Math.floor(random.unit() * many);
  const calendars: Record<string, WorkingCalendar> = { shop: weekdays };
  for (let k = 0; k < suppliers; k += 1) {
    const from = `2026-0${1 + (k % 9)}-10`;
    calendars[`supplier-${k}`] = { ...weekdays, closed: [{ from, to: `2026-0${1 + (k % 9)}-16` }] };
  }
  const activities = Array.from({ length: size }, (_, k) => {
    const kind: ActivityKind = random.unit() < 0.6 ? 'bench' : random.unit() < 0.8 ? 'outside' : 'order';
    if (kind === 'bench')
      return activity(`step-${k}`, { kind, takes: lognormal(1 + pick(4), 0.3), gate: 'reassembled' });
    const supplier = `supplier-${pick(suppliers)}`;
    return activity(`line-${k}`, {
      kind,
      takes: { location: Math.log(5 + pick(25)), scale: 0.4, freedom: 5 + pick(12), from: 0, atLeast: 0 },
      calendar: supplier,
      supplier,
      gate: 'sublet-out',
      started: random.unit() < 0.3 ? '2026-02-16' : null,
    });
  });
  const links: PlanLink[] = [];
  for (let k = 1; k < size; k += 1) {
    for (let n = 0; n < 1 + pick(2); n += 1) {
      const from = activities[Math.max(0, k - 1 - pick(12))]?.id ?? '';
      const to = activities[k]?.id ?? '';
      links.push(random.unit() < 0.1 ? { from, to, lag: { days: 5, counted: 'calendar' } } : { from, to });
    }
  }
  return { today: '2026-03-02', benchHoursADay: 4, calendars, activities, links };
}
