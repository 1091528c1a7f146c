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
  const gates = GATES.filter((gate) => !state.gates[gate].passed);
  return gates.length > 0
    ? refuse({ why: 'gates-open', gates })
    : { events: [event('handed-over', { on: bench.today })] };
}

/**
 * What follows from the events decided: passed gates whose condition they broke reopen, and the owner's notice
 * of each gate passed or reopened is drafted. A reopening takes back the word of a passing that was not yet let go.
 */
export function consequences(draft: Draft, bench: Bench): Draft {
  const reopenedNow = add(draft, bench, ...reopened(draft.state, bench.rules));
  return reopenedNow.events.reduce((after, each) => noticeOf(after, each, bench), reopenedNow);
}

function noticeOf(draft: Draft, each: JobEvent, bench: Bench): Draft {
  if (draft.state.owner === null) return draft;
  if (each.type === 'gate-passed') return drafted(draft, 'passed', each.data.gate, bench);
  if (each.type === 'handed-over') return drafted(draft, 'handed-over', null, bench);
  if (each.type !== 'gate-reopened') return draft;
  const untold = draft.state.notices.find(
    (notice) => notice.status === 'drafted' && notice.about === 'passed' && notice.gate === each.data.gate,
  );
  return untold
    ? add(draft, bench, event('notice-dropped', { notice: untold.id }))
    : drafted(draft, 'reopened', each.data.gate, bench);
}

function drafted(draft: Draft, about: Notice['about'], gate: Gate | null, bench: Bench): Draft {
  return add(draft, bench, event('notice-drafted', { notice: nextNotice(draft.state), about, gate }));
}
