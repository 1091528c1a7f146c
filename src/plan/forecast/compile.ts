import { calendarFault, workingDaysBetween, type WorkingCalendar } from '../calendar.js';
import { dayNumber, type IsoDate } from '../days.js';
import { at, orderGraph, type Graph } from '../graph.js';
import { stillOutAfter } from '../lead-times/lead-time.js';
import type { LinkKind } from '../network.js';
import type { ModelFault, PlanActivity, PlanLink, PlanModel } from '../model.js';
import { datesFrom, dayTable, TICKS, type DayTable } from './day-table.js';
import { lengthTable } from './draws.js';

/** A link ready for the loop: node numbers, and the wait in ticks. */
export type CompiledLink = {
  from: number;
  to: number;
  kind: LinkKind;
  wait: number;
  calendar: DayTable | null;
};

/** A model as tables, one node an activity. Times are ticks since `dates[0]`. */
export type CompiledModel = {
  activities: readonly PlanActivity[];
  graph: Graph;
  to: Int32Array;
  links: CompiledLink[];
  dates: IsoDate[];
  today: number;
  shop: DayTable;
  calendars: DayTable[];
  /** Lengths to draw from; null for what is finished. */
  lengths: (Int32Array | null)[];
  /** No node starts earlier; for a finished one, when it was finished. */
  earliest: Int32Array;
  /** Begun already: what should come before no longer holds it. */
  begun: Uint8Array;
};

export type CompileResult = { ok: true; model: CompiledModel } | { ok: false; fault: ModelFault };

/** Days looked ahead; what would come later is put on the last of them. */
export const HORIZON_DAYS = 1500;
/** Finished things matter to the plan while something waits for a lag after them. */
const LONGEST_LAG_DAYS = 200;
/** Far more than 500 items with their steps; it keeps a forecast's time and memory bounded. */
const MOST_ACTIVITIES = 4000;

/** Checks a model and turns it into tables, or says what is wrong with it. */
export function compileModel(model: PlanModel): CompileResult {
  const { activities } = model;
  const nodes = new Map(activities.map((activity, node) => [activity.id, node]));
  const fault = modelFault(model, nodes);
  if (fault) return { ok: false, fault };
  const from = Int32Array.from(model.links, (link) => nodes.get(link.from) ?? 0);
  const to = Int32Array.from(model.links, (link) => nodes.get(link.to) ?? 0);
  const ordered = orderGraph(activities.length, from, to);
  if (!ordered.ok) return { ok: false, fault: cycleFault(activities, ordered.cycle) };
  const firstDay = dayNumber(model.today) - LONGEST_LAG_DAYS;
  const dates = datesFrom(firstDay, LONGEST_LAG_DAYS + HORIZON_DAYS);
  const tables = new Map(
    Object.entries(model.calendars).map(([key, calendar]) => [key, dayTable(calendar, dates)]),
  );
  const tableOf = (key: string): DayTable => tables.get(key) ?? dayTable(NEVER, dates);
  const shut = [...tables].find(([, table]) => table.start.length === 0);
  if (shut) {
    return { ok: false, fault: { kind: 'calendar-at-fault', calendar: shut[0], reason: 'it never opens' } };
  }
  const today = LONGEST_LAG_DAYS * TICKS;
  return {
    ok: true,
    model: {
      activities,
      graph: ordered.graph,
      to,
      links: model.links.map((link, k) => compileLink(link, at(from, k), at(to, k), tableOf('shop'))),
      dates,
      today,
      shop: tableOf('shop'),
      calendars: activities.map((activity) => tableOf(activity.calendar)),
      lengths: activities.map((activity) => lengthsOf(model, activity)),
      earliest: Int32Array.from(activities, (activity) => earliestOf(activity, firstDay, today)),
      begun: Uint8Array.from(activities, (activity) => ((activity.started ?? activity.finished) ? 1 : 0)),
    },
  };
}

const NEVER = {
  zone: 'utc',
  days: [],
  hours: { from: '00:00', to: '00:01' },
  closed: [],
  holidays: new Set(''),
};

function compileLink(link: PlanLink, from: number, to: number, shop: DayTable): CompiledLink {
  const lag = link.lag ?? { days: 0, counted: 'calendar' };
  const wait = Math.round(lag.days * TICKS);
  const calendar = lag.counted === 'working' && wait > 0 ? shop : null;
  return { from, to, kind: link.kind ?? 'finish-start', wait, calendar };
}

function lengthsOf(model: PlanModel, activity: PlanActivity): Int32Array | null {
  if (activity.finished !== null) return null;
  const later = activity.later ?? 0;
  if (activity.kind === 'bench') return lengthTable(activity.takes, TICKS / model.benchHoursADay, later, 1);
  const calendar = model.calendars[activity.calendar];
  if (activity.started === null || calendar === undefined)
    return lengthTable(activity.takes, TICKS, later, 0);
  const out = Math.max(0, workingDaysBetween(calendar, activity.started, model.today));
  return lengthTable(stillOutAfter(activity.takes, out), TICKS, later, 0);
}

function earliestOf(activity: PlanActivity, firstDay: number, today: number): number {
  const date = activity.finished ?? activity.notBefore;
  if (date === null) return today;
  const ticks = Math.max(0, Math.min(HORIZON_DAYS, dayNumber(date) - firstDay)) * TICKS;
  return activity.finished === null ? Math.max(today, ticks) : Math.min(today, ticks);
}

function modelFault(model: PlanModel, nodes: ReadonlyMap<string, number>): ModelFault | null {
  const { activities, links, calendars, benchHoursADay } = model;
  if (activities.length > MOST_ACTIVITIES) {
    return { kind: 'too-much', activities: activities.length, atMost: MOST_ACTIVITIES };
  }
  for (const [calendar, hours] of Object.entries(calendars)) {
    const reason = checkedFault(hours);
    if (reason !== null) return { kind: 'calendar-at-fault', calendar, reason };
  }
  if (!('shop' in calendars)) return { kind: 'no-calendar', id: 'shop', calendar: 'shop' };
  const toDo = activities.some((activity) => activity.kind === 'bench' && activity.finished === null);
  if (toDo && !(benchHoursADay > 0)) return { kind: 'no-hands' };
  return (
    activities.map((one, node) => activityFault(model, one, nodes, node)).find(isFault) ??
    links.map((link) => linkFault(link, nodes)).find(isFault) ??
    null
  );
}

const checked = new WeakMap<WorkingCalendar, string | null>();

/** A zone takes long to check, and the same few calendars serve every job. */
function checkedFault(calendar: WorkingCalendar): string | null {
  const known = checked.get(calendar);
  if (known !== undefined) return known;
  const fault = calendarFault(calendar);
  checked.set(calendar, fault);
  return fault;
}

function isFault(fault: ModelFault | null): fault is ModelFault {
  return fault !== null;
}

function activityFault(
  model: PlanModel,
  activity: PlanActivity,
  nodes: ReadonlyMap<string, number>,
  node: number,
): ModelFault | null {
  const { id, calendar, takes } = activity;
  if (nodes.get(id) !== node) return { kind: 'twice', id };
  if (!(calendar in model.calendars)) return { kind: 'no-calendar', id, calendar };
  const { location, scale, freedom, from, atLeast } = takes;
  const sound = Number.isFinite(location + scale + from + atLeast + (activity.later ?? 0));
  return sound && scale >= 0 && freedom > 0 ? null : { kind: 'bad-lead-time', id };
}

function linkFault({ from, to, lag }: PlanLink, nodes: ReadonlyMap<string, number>): ModelFault | null {
  const stray = [from, to].find((id) => !nodes.has(id));
  if (stray !== undefined) return { kind: 'unknown-activity', id: stray };
  const days = lag?.days ?? 0;
  return days >= 0 && days <= LONGEST_LAG_DAYS ? null : { kind: 'bad-lag', from, to };
}

function cycleFault(activities: readonly PlanActivity[], cycle: readonly number[]): ModelFault {
  const inLoop = cycle.flatMap((node) => activities[node] ?? []);
  const items = inLoop.flatMap((activity) => activity.item ?? []);
  return { kind: 'cycle', ids: inLoop.map((activity) => activity.id), items: [...new Set(items)] };
}
