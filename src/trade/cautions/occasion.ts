import type { Condition, Process, Remedy } from '../terms.js';
import type { Act, Occasion } from './schema.js';

/** What is known of an item and of what is to be done with it. */
export type Work = {
  /** Canonical part name; null where none was named. */
  readonly part: string | null;
  /** The part's lexicon group. */
  readonly group: string | null;
  readonly processes: readonly Process[];
  readonly remedy: Remedy | null;
  readonly conditions: readonly Condition[];
  readonly act: Act;
};

const asksNothing = (list: readonly unknown[] | undefined): list is undefined => list === undefined;

const holds = <T>(wanted: readonly T[] | undefined, value: T | null): boolean =>
  asksNothing(wanted) || (value !== null && wanted.includes(value));

const holdsOneOf = <T>(wanted: readonly T[] | undefined, values: readonly T[]): boolean =>
  asksNothing(wanted) || values.some((value) => wanted.includes(value));

const isAboutPart = ({ parts, groups, wholeMachine }: Occasion, work: Work): boolean => {
  if (wholeMachine === true) return work.part === null;
  if (parts === undefined && groups === undefined) return true;
  const named = work.part !== null && (parts ?? []).includes(work.part);
  return named || (groups ?? []).some((group) => group === work.group);
};

/** Whether the work is one that this occasion describes. */
export const callsFor = (occasion: Occasion, work: Work): boolean =>
  isAboutPart(occasion, work) &&
  holdsOneOf(occasion.processes, work.processes) &&
  holds(occasion.remedies, work.remedy) &&
  holdsOneOf(occasion.conditions, work.conditions) &&
  holds(occasion.acts, work.act);
