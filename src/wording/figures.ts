import { DateTime } from 'luxon';
import type { Cost, Measured } from '../hearing/reading.js';
import type { IsoDate } from '../job/state.js';
import { dayNumber } from '../plan/days.js';
import type { Speaker } from './answer.js';
import { joined } from './lines.js';

/** A sum in words: '£80', 'about £25 each plus VAT'. */
export function money(cost: Cost): string {
  const vat = cost.vat === null ? '' : cost.vat === 'plus' ? ' plus VAT' : ' including VAT';
  return `${cost.about ? 'about ' : ''}${sum(cost.amount, cost.currency)}${cost.each ? ' each' : ''}${vat}`;
}

/** A sum in major units: '£80', '£25.50'. */
export function sum(amount: number, currency: string): string {
  return formatOf(currency, Number.isInteger(amount) ? 0 : 2).format(amount);
}

const formats = new Map<string, Intl.NumberFormat>();

/** Kept: one takes longer to make than a whole answer. */
function formatOf(currency: string, digits: number): Intl.NumberFormat {
  const key = `${currency} ${digits}`;
  const kept = formats.get(key);
  if (kept) return kept;
  const [minimumFractionDigits, maximumFractionDigits] = [digits, digits];
  const made = new Intl.NumberFormat('en-GB', {
    ...{ style: 'currency', currency, minimumFractionDigits, maximumFractionDigits },
  });
  formats.set(key, made);
  return made;
}

/** Sums of several things together, currencies apart: '£120', '£120 and €30'. */
export function total(costs: readonly { amount: number; currency: string }[], currency: string): string {
  const sums = new Map<string, number>();
  for (const cost of costs) sums.set(cost.currency, (sums.get(cost.currency) ?? 0) + cost.amount);
  const words = [...sums].filter(([, amount]) => amount > 0).map(([each, amount]) => sum(amount, each));
  return words.length === 0 ? sum(0, currency) : words.join(' and ');
}

/** 'Fri 13 March'; with the year where it isn't this year. */
export function day(date: IsoDate, { today }: Pick<Speaker, 'today'>): string {
  return format(DateTime.fromISO(date, { zone: 'utc' }), 'ccc d MMMM', today);
}

/** 'Fri 13 March 2026', for where no today is known. */
export function dayAndYear(date: IsoDate): string {
  return DateTime.fromISO(date, { zone: 'utc' }).setLocale('en-GB').toFormat('ccc d MMMM yyyy');
}

/** The local day of an instant, ms: '2 March'; with the year where it isn't this year. */
export function dayOf(at: number, { today, zone }: Pick<Speaker, 'today' | 'zone'>): string {
  return format(DateTime.fromMillis(at, { zone }), 'd MMMM', today);
}

/** A date as 'since' has it: '2 March'. */
export function shortDay(date: IsoDate, { today }: Pick<Speaker, 'today'>): string {
  return format(DateTime.fromISO(date, { zone: 'utc' }), 'd MMMM', today);
}

function format(at: DateTime, pattern: string, today: IsoDate): string {
  const year = at.year === Number(today.slice(0, 4)) ? '' : ' yyyy';
  return at.setLocale('en-GB').toFormat(`${pattern}${year}`);
}

/** Calendar days from one date to another: '1 day', '9 days'. */
export function daysBetween(from: IsoDate, to: IsoDate): string {
  const days = dayNumber(to) - dayNumber(from);
  return days === 1 ? '1 day' : `${days} days`;
}

/** Hours at the bench, rounded to what can honestly be said: 'half an hour', '14 hours'. */
export function benchHours(hours: number): string {
  if (hours < 0.75) return 'half an hour';
  const rounded = hours < 4 ? Math.round(hours * 2) / 2 : Math.round(hours);
  return rounded === 1 ? '1 hour' : `${rounded} hours`;
}

const UNITS: Readonly<Record<string, string>> = {
  thou: ' thou',
  'lbf.ft': ' lbf ft',
  'lbf.in': ' lbf in',
  'N.m': ' N m',
  degC: ' °C',
  degF: ' °F',
  ohm: ' ohm',
  deg: '°',
  '': '',
};

/** A unit as it stands behind a value: ' mm', ' lbf ft', '°'. */
const unitOf = (unit: string): string => UNITS[unit] ?? ` ${unit}`;

/** What was measured, with the values: 'bore 79.52 and 79.55 mm'; the value alone where what it is of was not said. */
export function measured(readings: readonly Measured[]): string[] {
  const kinds = [...new Set(readings.map(({ quantity, unit }) => `${quantity}/${unit}`))];
  return kinds.map((kind) => {
    const same = readings.filter(({ quantity, unit }) => `${quantity}/${unit}` === kind);
    const [first] = same;
    if (!first) return '';
    const values = `${joined(same.map((each) => String(each.value)))}${unitOf(first.unit)}`;
    return first.quantity === 'other' ? values : `${first.quantity.replace('-', ' ')} ${values}`;
  });
}
