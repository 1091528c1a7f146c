/**
 * A resource-constrained scheduling problem in general form (RCPSP with minimum lags, release times and
 * capacities that vary over time). Times are whole periods from 0; what a period is (an hour at the bench, a
 * working day) is the caller's choice. Activities, resources and links name each other by index.
 */
export type Problem = {
  activities: readonly Activity[];
  /** An activity starts no earlier than the finish of the one before it plus the lag. */
  links: readonly Link[];
  resources: readonly Resource[];
};

/** Runs without a break for `duration` periods and takes `demands[r]` units of resource r in each of them. */
export type Activity = {
  duration: number;
  /** Missing entries are 0. */
  demands: readonly number[];
  /** The first period that it can start in (default: 0). */
  release?: number;
  /** It should be finished by the start of this period (default: none). */
  due?: number;
  /** What one period of finishing after `due` costs (default: 1 where there is a due date). */
  weight?: number;
};

/** A finish-to-start link with a minimum lag in periods, 0 or more (default: 0). */
export type Link = { from: number; to: number; lag?: number };

/** Units in every period, or period by period; the last entry of a list holds for ever after. */
export type Resource = { capacity: number | readonly number[] };

/** What is minimised: the sum of these, each with its weight. Without one: the makespan alone. */
export type Objective = {
  /** Per period of makespan (default: 1). */
  makespan?: number;
  /** Per unit of weighted tardiness (default: 0). */
  tardiness?: number;
  /** Per period that an activity starts before or after its start in the baseline (default: 0). */
  deviation?: number;
};

/** Start by activity, as it was planned before; null for one that had no place. */
export type Baseline = readonly (number | null)[];

/** Why a problem can't be scheduled at all; activities and resources by index. */
export type ProblemFault =
  | { kind: 'cycle'; activities: number[] }
  | { kind: 'bad-number'; where: string; value: number }
  | { kind: 'unknown-activity'; link: number; activity: number }
  /** At no time is there a stretch in which the resource has enough for the activity. */
  | { kind: 'never-enough'; activity: number; resource: number }
  | { kind: 'too-large'; what: string; atMost: number };
