import type { JobCommand } from '../commands.js';
import type { JobEvent } from '../events.js';
import { event } from '../events.js';
import type { JobState } from '../state.js';
import type { Decision } from './draft.js';
import { refuse } from './draft.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

/** A job may be opened at any point of a restoration, with the gates behind it taken as passed. */
export function openJob(state: JobState, command: CommandOf<'open-job'>): Decision {
  if (state.status !== 'none') return refuse({ why: 'job-exists' });
  const { title, model, template, owner, arrivedOn, arrival } = command;
  const noted: JobEvent[] = arrival ? [event('arrival-noted', arrival)] : [];
  return {
    events: [
      event('job-opened', { title, model, template, owner, arrivedOn }),
      ...noted,
      ...command.passed.map((gate) => event('gate-passed', { gate })),
    ],
  };
}
