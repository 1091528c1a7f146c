import type { Gate } from '../trade/terms.js';
import { GATES } from '../trade/terms.js';
import { blockersOf } from './blockers.js';
import type { JobEvent } from './events.js';
import { event } from './events.js';
import type { JobRules } from './needs.js';
import type { JobState } from './state.js';

/** The passed gates whose condition no longer holds, as events that reopen them. */
export function reopened(state: JobState, rules: JobRules): JobEvent[] {
  return GATES.filter((gate) => state.gates[gate].passed && blockersOf(state, gate, rules).length > 0).map(
    (gate) => event('gate-reopened', { gate }),
  );
}

/** Gates that nothing blocks and that are not passed: offered to the mechanic, never passed for them. */
export function onOffer(state: JobState, rules: JobRules): Gate[] {
  if (state.status !== 'open') return [];
  return GATES.filter(
    (gate) =>
      !state.gates[gate].passed && mayBeOffered(state, gate) && blockersOf(state, gate, rules).length === 0,
  );
}

/**
 * 'Parts ordered' and 'sublet out' hold of an empty list too, and a job half seen may have nothing to order yet:
 * they are offered once the machine has been inspected. 'Stripped' is the mechanic's word alone.
 */
function mayBeOffered(state: JobState, gate: Gate): boolean {
  switch (gate) {
    case 'stripped':
      return Object.values(state.items).some((item) => item.takenOff);
    case 'inspected':
      return state.gates.stripped.passed;
    case 'parts-ordered':
    case 'sublet-out':
    case 'reassembled':
      return state.gates.inspected.passed;
    case 'road-tested':
      return state.gates.reassembled.passed;
  }
}

/** The gate the job stands before: the first in order that is not passed; null when all are. */
export function nextGate(state: JobState): Gate | null {
  return GATES.find((gate) => !state.gates[gate].passed) ?? null;
}
