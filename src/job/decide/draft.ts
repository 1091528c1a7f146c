import type { JobEvent } from '../events.js';
import type { Refusal } from '../commands.js';
import { evolve } from '../evolve.js';
import type { JobRules } from '../needs.js';
import type { IsoDate, JobState } from '../state.js';

/** What deciding may know besides the job: the day in the shop, and the shop's rules. */
export type Bench = {
  today: IsoDate;
  at: number;
  by: string;
  rules: JobRules;
};

export type Decision = { events: JobEvent[] } | { refusal: Refusal };

/** Events decided so far, and the state they lead to, for decisions that take several steps. */
export type Draft = { state: JobState; events: readonly JobEvent[] };

export const startDraft = (state: JobState): Draft => ({ state, events: [] });

export function add(draft: Draft, bench: Bench, ...events: JobEvent[]): Draft {
  const state = events.reduce(
    (before, event) => evolve(before, { ...event, version: before.version + 1, at: bench.at, by: bench.by }),
    draft.state,
  );
  return { state, events: [...draft.events, ...events] };
}

export const done = (draft: Draft): Decision => ({ events: [...draft.events] });
export const refuse = (refusal: Refusal): Decision => ({ refusal });
