import type { JobCommand } from '../commands.js';
import { event } from '../events.js';
import type { JobState } from '../state.js';
import type { Decision } from './draft.js';
import { refuse } from './draft.js';
import { itemNamed } from './target.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

export function doCheck(state: JobState, command: CommandOf<'do-check'>): Decision {
  if (!state.checks.some((check) => check.id === command.check)) {
    return refuse({ why: 'no-such-check', check: command.check });
  }
  return { events: [event('check-done', { check: command.check, text: command.text })] };
}

/** A ride with faults is a failed one whatever was said of it. */
export function roadTest(state: JobState, command: CommandOf<'road-test'>): Decision {
  const { faults, text } = command;
  const outcome = faults.length > 0 ? 'fail' : command.outcome;
  const first = nextFault(state);
  return {
    events: [
      event('road-tested', { outcome, text }),
      ...faults.map((fault, index) =>
        event('fault-found', { fault: first + index, item: null, text: fault }),
      ),
    ],
  };
}

/** A fault puts nothing on the list: it stands for itself until it is cleared. */
export function findFault(state: JobState, { target, text }: CommandOf<'find-fault'>): Decision {
  return {
    events: [event('fault-found', { fault: nextFault(state), item: itemNamed(state, target), text })],
  };
}

export function clearFault(state: JobState, command: CommandOf<'clear-fault'>): Decision {
  const fault = state.faults.find((each) => each.number === command.fault);
  if (!fault) return refuse({ why: 'no-such-fault', fault: command.fault });
  if (fault.clearedAt !== null) return { events: [] };
  return { events: [event('fault-cleared', { fault: fault.number })] };
}

function nextFault(state: JobState): number {
  return Math.max(0, ...state.faults.map((fault) => fault.number)) + 1;
}
