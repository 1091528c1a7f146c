import type { Gate } from '../../trade/terms.js';
import { GATES } from '../../trade/terms.js';
import { blockersOf } from '../blockers.js';
import type { JobCommand } from '../commands.js';
import type { JobEvent } from '../events.js';
import { event } from '../events.js';
import { reopened } from '../gates.js';
import type { JobState, Notice } from '../state.js';
import type { Bench, Decision, Draft } from './draft.js';
import { add, refuse } from './draft.js';
import { nextNotice } from './owner.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

export function passGate(state: JobState, { gate }: CommandOf<'pass-gate'>, bench: Bench): Decision {
  if (state.gates[gate].passed) return refuse({ why: 'gate-passed', gate });
  if (blockersOf(state, gate, bench.rules).length > 0) return refuse({ why: 'gate-blocked', gate });
  return { events: [event('gate-passed', { gate })] };
}

export function handOver(state: JobState, bench: Bench): Decision {
  if (state.status === 'handed-over') return { events: [] };
  const gates = GATES.filter((gate) => !state.gates[gate].passed);
  return gates.length > 0
    ? refuse({ why: 'gates-open', gates })
    : { events: [event('handed-over', { on: bench.today })] };
}

/**
 * What follows from the events decided: passed gates whose condition they broke reopen, and the owner's notice
 * of each gate passed or reopened is drafted. A passing and a reopening that were not yet let go cancel out. A machine
 * that has gone home reopens nothing.
 */
export function consequences(draft: Draft, bench: Bench): Draft {
  const after =
    draft.state.status === 'open' ? add(draft, bench, ...reopened(draft.state, bench.rules)) : draft;
  const isOpening = after.events.some(({ type }) => type === 'job-opened');
  return isOpening ? after : after.events.reduce((before, each) => noticeOf(before, each, bench), after);
}

function noticeOf(draft: Draft, each: JobEvent, bench: Bench): Draft {
  if (draft.state.owner === null) return draft;
  if (each.type === 'handed-over') return drafted(draft, 'handed-over', null, bench);
  if (each.type !== 'gate-passed' && each.type !== 'gate-reopened') return draft;
  const about = each.type === 'gate-passed' ? 'passed' : 'reopened';
  const untold = draft.state.notices.find(
    ({ status, about: was, gate }) =>
      status === 'drafted' && was === opposite(about) && gate === each.data.gate,
  );
  return untold
    ? add(draft, bench, event('notice-dropped', { notice: untold.id }))
    : drafted(draft, about, each.data.gate, bench);
}

const opposite = (about: 'passed' | 'reopened'): Notice['about'] =>
  about === 'passed' ? 'reopened' : 'passed';

function drafted(draft: Draft, about: Notice['about'], gate: Gate | null, bench: Bench): Draft {
  return add(draft, bench, event('notice-drafted', { notice: nextNotice(draft.state), about, gate }));
}
