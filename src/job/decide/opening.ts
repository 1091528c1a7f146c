import type { JobCommand } from '../commands.js';
import type { JobEvent } from '../events.js';
import { event } from '../events.js';
import type { JobState } from '../state.js';
import { setUpOf, stepsOf } from '../template.js';
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
      ...behind(command),
      ...command.passed.map((gate) => event('gate-passed', { gate })),
    ],
  };
}

/** What must have been done for the gates behind it to have been passed. */
function behind({ template, passed }: CommandOf<'open-job'>): JobEvent[] {
  const isTested = passed.includes('road-tested');
  const fitted = passed.includes('reassembled') ? stepsOf(template) : [];
  const checked = isTested ? setUpOf(template) : [];
  return [
    ...fitted.map(({ id }) => event('step-fitted', { step: id })),
    ...checked.map(({ id }) => event('check-done', { check: id, text: null })),
    ...(isTested ? [event('road-tested', { outcome: 'pass', text: null })] : []),
  ];
}
