import type { Blocker } from '../job/blockers.js';
import type { Item, JobState } from '../job/state.js';
import type { Speaker } from './answer.js';
import { dayOf } from './figures.js';
import { joined } from './lines.js';
import { outWords } from './outside.js';
import { forWork, remedyName, toBeDone } from './terms.js';
import { faultName, itemName, stepName } from './things.js';

/** One reason why a gate can't be passed, as a line: the thing, what is the matter, since when, what is to be done. */
export function blockerLine(state: JobState, blocker: Blocker, speaker: Speaker): string {
  const item = blocker.item === null ? undefined : state.items[blocker.item];
  return item
    ? `${itemName(item, speaker)}: ${itemClause(state, item, blocker, speaker)}`
    : otherLine(state, blocker, speaker);
}

/** What is the matter, without the thing's name. */
export function itemClause(state: JobState, item: Item, blocker: Blocker, speaker: Speaker): string {
  const since = blocker.since === null ? '' : ` since ${dayOf(blocker.since, speaker)}`;
  switch (blocker.kind) {
    case 'unseen':
      return 'not looked at yet';
    case 'undecided':
      return 'seen, but nothing decided yet';
    case 'owner-said-no':
      return `the owner said no; decide what else to do`;
    case 'check-again':
      return 'to be looked at again, then decided';
    case 'owner-yes':
      return ownerYes(item, blocker.since === null ? '' : ` on ${dayOf(blocker.since, speaker)}`);
    case 'not-ordered':
      return 'to be ordered';
    case 'still-here':
      return `to go out${forWork(blocker.processes)}`;
    case 'send-again':
      return `came back not right, to go again${forWork(blocker.processes)}`;
    case 'on-order':
    case 'out': {
      const line = blocker.line === null ? undefined : state.lines[blocker.line];
      return line ? outWords(line, speaker) : `out${since}`;
    }
    case 'work-undone':
      return toBeDone(item.remedy, blocker.processes);
    case 'item-to-fit':
    case 'to-fit':
      return 'ready to go on';
    case 'fault':
      return otherLine(state, blocker, speaker);
    case 'nothing-listed':
    case 'step-waits':
    case 'check-undone':
    case 'no-road-test':
    case 'road-test-failed':
      return otherLine(state, blocker, speaker);
  }
}

function ownerYes({ agreement, remedy, processes }: Item, on: string): string {
  const what = remedy === null ? '' : `${remedyName(remedy, processes)}, `;
  switch (agreement.status) {
    case 'asked':
      return `${what}the owner asked${on}, no answer yet`;
    case 'talk':
      return `${what}the owner wants to talk about it (said${on})`;
    case 'yes':
      return `${what}costs more than the owner said yes to`;
    case 'not-asked':
    case 'no':
      return `${what}the owner not asked yet`;
  }
}

function otherLine(
  state: JobState,
  { kind, step: id, behind, fault, check }: Blocker,
  speaker: Speaker,
): string {
  const step = state.steps.find((each) => each.id === id);
  const name = step ? stepName(step, speaker) : 'a step';
  switch (kind) {
    case 'nothing-listed':
      return 'Nothing is on the strip list yet';
    case 'to-fit':
      return `${name}: can be done now`;
    case 'step-waits':
      return `${name}: after ${joined(
        state.steps.filter((each) => behind.includes(each.id)).map((each) => `“${stepName(each, speaker)}”`),
        3,
      )}`;
    case 'fault': {
      const found = state.faults.find((each) => each.number === fault);
      return found ? `${faultName(found, speaker)}, found ${dayOf(found.foundAt, speaker)}` : 'An open fault';
    }
    case 'check-undone':
      return `To check: ${state.checks.find((each) => each.id === check)?.name ?? 'setting up'}`;
    case 'no-road-test':
      return 'No road test yet';
    case 'road-test-failed':
      return 'The last road test found faults: it wants riding again';
    case 'unseen':
    case 'undecided':
    case 'owner-said-no':
    case 'check-again':
    case 'owner-yes':
    case 'not-ordered':
    case 'still-here':
    case 'send-again':
    case 'on-order':
    case 'out':
    case 'work-undone':
    case 'item-to-fit':
      return 'Something no longer on the list';
  }
}
