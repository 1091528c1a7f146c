import type { Gate } from '../trade/terms.js';
import type { IsoDate, WorkingCalendar } from './calendar.js';
import type { LeadTime } from './lead-times/lead-time.js';
import type { LinkKind } from './network.js';

/**
 * Bench work takes hours at the bench; the others take working days of whoever does them: work sent out, parts
 * bought, an answer of the owner's.
 */
export type ActivityKind = 'bench' | 'outside' | 'order' | 'answer';

/** One thing to be done, or done, on a job. */
export type PlanActivity = {
  id: string;
  kind: ActivityKind;
  /** Hours for bench work, else working days of its calendar since it began. */
  takes: LeadTime;
  /** The key of its calendar among the model's. */
  calendar: string;
  /** The gate that can't pass before it is finished. */
  gate: Gate | null;
  line: string | null;
  item: number | null;
  step: string | null;
  supplier: string | null;
  started: IsoDate | null;
  finished: IsoDate | null;
  /** It isn't begun before this date; one in the past says nothing. */
  notBefore: IsoDate | null;
  /** Supposed to take so much longer, in the unit of `takes`; 0 as a rule. */
  later?: number;
};

/** A wait over a link: paint cures on Sundays too ('calendar' days), a van goes on working days of the shop. */
export type Lag = { days: number; counted: 'calendar' | 'working' };

export type PlanLink = { from: string; to: string; kind?: LinkKind; lag?: Lag };

/** A job as the plan sees it. */
export type PlanModel = {
  today: IsoDate;
  /** Bench hours that the shop gives this job in a working day, all its hands together. */
  benchHoursADay: number;
  /** By key; `shop` is the shop's own. */
  calendars: Readonly<Record<string, WorkingCalendar>>;
  activities: readonly PlanActivity[];
  links: readonly PlanLink[];
};

/** Why a model can't be reckoned with. */
export type ModelFault =
  /** Each waits for the one before it, and the first for the last. */
  | { kind: 'cycle'; ids: string[]; items: number[] }
  | { kind: 'unknown-activity'; id: string }
  | { kind: 'twice'; id: string }
  | { kind: 'no-calendar'; id: string; calendar: string }
  | { kind: 'calendar-at-fault'; calendar: string; reason: string }
  /** There is bench work to do and nobody to do it. */
  | { kind: 'no-hands' }
  | { kind: 'bad-lead-time'; id: string }
  | { kind: 'bad-lag'; from: string; to: string }
  | { kind: 'too-much'; activities: number; atMost: number };
