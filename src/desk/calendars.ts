import type { WorkingCalendar } from '../plan/calendar.js';
import { dateAt } from '../plan/calendar.js';
import type { PublicHolidays } from '../plan/holidays.js';
import { holidaysOf, NO_HOLIDAYS } from '../plan/holidays.js';
import type { CalendarSettings, Policy } from '../shop/policy.js';
import type { ShopState } from '../shop/state.js';

/** The shop's own working calendar. */
export function shopCalendar(policy: Policy): WorkingCalendar {
  return calendar(policy.calendar, policy.zone);
}

/** A person's working calendar: their own where one was set, else what policy takes suppliers to work. */
export function calendarOf(person: string, shop: ShopState, policy: Policy): WorkingCalendar {
  return calendar(shop.people[person]?.calendar ?? policy.supplier.calendar, policy.zone);
}

/** A mechanic's working calendar: their own where they have days off, else the shop's. */
export function mechanicCalendar(person: string, shop: ShopState, policy: Policy): WorkingCalendar {
  return calendar(shop.people[person]?.calendar ?? policy.calendar, policy.zone);
}

export const todayOf = (policy: Policy, at: number): string => dateAt(shopCalendar(policy), at);

function calendar(settings: CalendarSettings, zone: string): WorkingCalendar {
  const { days, hours, closed, region } = settings;
  return { zone, days, hours, closed, holidays: holidaysIn(region) };
}

const known = new Map<string, PublicHolidays>();

/** Public holidays by country and region, such as `GB-ENG`. Places are checked where settings come in, so none is unknown here. */
function holidaysIn(place: string | null): PublicHolidays {
  if (place === null) return NO_HOLIDAYS;
  const kept = known.get(place);
  if (kept) return kept;
  const [country = '', region] = place.split('-');
  const found = holidaysOf(region === undefined ? { country } : { country, region });
  const holidays = found.ok ? found.holidays : NO_HOLIDAYS;
  known.set(place, holidays);
  return holidays;
}
