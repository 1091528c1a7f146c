import type { WorkingCalendar } from '../../plan/calendar.js';
import { workingDaysBetween } from '../../plan/calendar.js';
import type { LeadTimes } from '../../plan/lead-times/learn.js';
import { lognormal } from '../../plan/lead-times/lead-time.js';
import type { PlanActivity, PlanLink, PlanModel } from '../../plan/model.js';
import type { Gate } from '../../trade/terms.js';
import { buildOf } from '../build-order.js';
import type { JobRules, Need } from '../needs.js';
import { needOf } from '../needs.js';
import type { IsoDate, Item, JobState, Line, Step } from '../state.js';
import { isOut, promiseOf } from '../state.js';
import { PARTS, processOf } from './history.js';

/** What a job's plan is reckoned with, besides the job. */
export type PlanContext = {
  today: IsoDate;
  /** Bench hours that the shop gives this job in a working day. */
  benchHoursADay: number;
  shopCalendar: WorkingCalendar;
  calendarOf: (supplier: string) => WorkingCalendar;
  leadTimes: LeadTimes;
  rules: JobRules;
};

/** Rough bench hours and how far they spread, the owner's days to answer; common practice, no source. */
const HOURS = {
  look: 0.3,
  clean: 0.7,
  repair: 1.5,
  make: 3,
  keep: 0,
  check: 0.3,
  perCheck: 0.25,
  ride: 1.5,
  fault: 2,
};
const SPREAD = 0.4;
const ANSWER = lognormal(3, 0.8);
const SHOP = 'shop';

/**
 * The job as the plan sees it: what each item still wants, then the build order's steps, the setting up, and the
 * road test. Done things are left out, save what is out with a supplier, which has begun.
 */
export function planModel(state: JobState, context: PlanContext): PlanModel {
  const { steps, itemsOf, loose } = buildOf(state);
  const toFit = steps.filter((step) => !step.fitted);
  const activities: PlanActivity[] = toFit.map(stepActivity);
  const links: PlanLink[] = toFit.flatMap((step) => linksInto(step, steps));
  const calendars: Record<string, WorkingCalendar> = { [SHOP]: context.shopCalendar };
  const addChain = (item: Item, before: string): void => {
    const chain = chainOf(state, item, context);
    chain.forEach((activity, place) => {
      activities.push(activity);
      if (activity.supplier !== null) calendars[activity.calendar] = context.calendarOf(activity.supplier);
      links.push({ from: activity.id, to: chain[place + 1]?.id ?? before });
    });
  };
  activities.push(...doneLines(state), setUpActivity(state), rideActivity(state));
  for (const { supplier, calendar } of activities) {
    if (supplier !== null) calendars[calendar] = context.calendarOf(supplier);
  }
  for (const step of steps)
    for (const item of itemsOf.get(step.id) ?? []) addChain(item, step.fitted ? SET_UP : stepId(step.id));
  for (const item of loose) addChain(item, SET_UP);
  links.push(...toFit.map(({ id }) => ({ from: stepId(id), to: SET_UP })), { from: SET_UP, to: RIDE });
  return { today: context.today, benchHoursADay: context.benchHoursADay, calendars, activities, links };
}

const SET_UP = 'set-up';
const RIDE = 'ride';
const stepId = (step: string): string => `step-${step}`;

type Bench = { id: string; hours: number; gate: Gate } & Partial<PlanActivity>;

function bench({ id, hours, gate, ...about }: Bench): PlanActivity {
  return {
    id,
    kind: 'bench',
    takes: lognormal(Math.max(0.05, hours), SPREAD),
    calendar: SHOP,
    gate,
    ...{ line: null, item: null, step: null, supplier: null, started: null, finished: null, notBefore: null },
    ...about,
  };
}

function stepActivity(step: Step): PlanActivity {
  return bench({ id: stepId(step.id), hours: step.hours, gate: 'reassembled', step: step.id });
}

/** A step waits for those before it that are not fitted; paint and the like also take days after one that is. */
function linksInto(step: Step, steps: readonly Step[]): PlanLink[] {
  const open = new Set(steps.filter(({ fitted }) => !fitted).map(({ id }) => id));
  return step.after
    .filter((id) => open.has(id))
    .map((id) => {
      const days = step.waits.filter(({ after }) => after === null || after === id).map((wait) => wait.days);
      const lag = days.length > 0 ? { lag: { days: Math.max(...days), counted: 'calendar' as const } } : {};
      return { from: stepId(id), to: stepId(step.id), ...lag };
    });
}

/** Work that came back stands in the plan as done, for the picture's sake. */
function doneLines(state: JobState): PlanActivity[] {
  return Object.values(state.lines).flatMap((line) => {
    if (isOut(line) || line.returnedOn === null) return [];
    const { id, item, supplier, kind, openedOn: started, returnedOn: finished } = line;
    const about = { line: id, item, supplier, started, finished };
    const calendar = supplier === null ? SHOP : calendarKey(supplier);
    return [
      {
        ...bench({ id: lineId(id), hours: 0, gate: 'reassembled', ...about, calendar }),
        kind: kind === 'order' ? 'order' : 'outside',
      },
    ];
  });
}

function setUpActivity(state: JobState): PlanActivity {
  const open = state.checks.filter(({ doneAt }) => doneAt === null).length;
  return bench({ id: SET_UP, hours: open * HOURS.perCheck, gate: 'road-tested' });
}

function rideActivity(state: JobState): PlanActivity {
  const faults = state.faults.filter(({ clearedAt }) => clearedAt === null).length;
  const ridden = state.roadTest?.outcome === 'pass' && faults === 0;
  return bench({ id: RIDE, hours: (ridden ? 0 : HOURS.ride) + faults * HOURS.fault, gate: 'road-tested' });
}

/** What an item still wants, one thing after the other: an answer first where one is awaited. */
function chainOf(state: JobState, item: Item, context: PlanContext): PlanActivity[] {
  const need = needOf(state, item, context.rules);
  if (need.kind !== 'yes') return workOf(item, need, context);
  const answer: PlanActivity = {
    ...bench({ id: `answer-${item.number}`, hours: 0, gate: 'inspected', item: item.number }),
    kind: 'answer',
    takes: ANSWER,
  };
  const agreed: Need =
    item.remedy === 'replace'
      ? { kind: 'order' }
      : item.remedy === 'send-out'
        ? { kind: 'send', processes: item.processes, again: false }
        : { kind: 'work' };
  return [answer, ...workOf(item, agreed, context)];
}

function workOf(item: Item, need: Need, context: PlanContext): PlanActivity[] {
  const about = { item: item.number };
  switch (need.kind) {
    case 'nothing':
    case 'yes':
      return [];
    case 'look':
    case 'decide':
    case 'look-again':
      return [bench({ id: `look-${item.number}`, hours: HOURS.look, gate: 'inspected', ...about })];
    case 'work':
      return [bench({ id: `work-${item.number}`, hours: hoursFor(item), gate: 'reassembled', ...about })];
    case 'order':
      return [away(item, { kind: 'order', process: PARTS, supplier: item.supplier }, context)];
    case 'send':
      return [
        away(
          item,
          { kind: 'outside', process: need.processes[0] ?? 'other', supplier: item.supplier },
          context,
        ),
      ];
    case 'out':
      return [lineActivity(need.line, context)];
  }
}

function hoursFor(item: Item): number {
  const { remedy } = item;
  return remedy === null || remedy === 'send-out' || remedy === 'replace' ? HOURS.repair : HOURS[remedy];
}

type Away = { kind: 'outside' | 'order'; process: string; supplier: string | null };

function away(item: Item, { kind, process, supplier }: Away, { leadTimes }: PlanContext): PlanActivity {
  return {
    ...bench({ id: `away-${item.number}`, hours: 0, gate: 'reassembled', item: item.number, supplier }),
    kind,
    takes: leadTimes.expect({ supplier, process }),
    calendar: supplier === null ? SHOP : calendarKey(supplier),
  };
}

function lineActivity(line: Line, { leadTimes, today, calendarOf, shopCalendar }: PlanContext): PlanActivity {
  const { supplier } = line;
  const calendar = supplier === null ? shopCalendar : calendarOf(supplier);
  const since = (date: IsoDate): number => workingDaysBetween(calendar, line.openedOn, date);
  const promised = promiseOf(line);
  const promise =
    promised === null ? null : { given: Math.max(0, since(promised.on)), due: since(promised.due) };
  return {
    ...bench({ id: lineId(line.id), hours: 0, gate: 'reassembled', item: line.item, supplier }),
    kind: line.kind === 'order' ? 'order' : 'outside',
    line: line.id,
    takes: leadTimes.expect({ supplier, process: processOf(line), out: Math.max(0, since(today)), promise }),
    calendar: supplier === null ? SHOP : calendarKey(supplier),
    started: line.openedOn,
  };
}

/** The plan's own id of a line that is out. */
export const lineId = (line: string): string => `out-${line}`;
const calendarKey = (supplier: string): string => `of-${supplier}`;
