import { buildOf } from '../job/build-order.js';
import type { JobState } from '../job/state.js';
import type { ModelFault } from '../plan/model.js';
import type { Answer, Speaker } from './answer.js';
import type { Line } from './lines.js';
import { bold, joined, message } from './lines.js';
import { itemCalled, stepName } from './things.js';

/** Why a job can't be planned, and what to do about it. */
export function faultLine(state: JobState, fault: ModelFault, speaker: Speaker): Line {
  return [bold(state.title), `: I can’t plan it. ${faultWords(state, fault, speaker)}`];
}

/** The same as an answer of its own. */
export function faultText(state: JobState, fault: ModelFault, speaker: Speaker): Answer {
  return message([faultLine(state, fault, speaker)]);
}

function faultWords(state: JobState, fault: ModelFault, speaker: Speaker): string {
  switch (fault.kind) {
    case 'cycle':
      return `${loop(state, fault, speaker)} each wait for the next, round in a ring. Say “build order”, and take one of those waits out.`;
    case 'no-calendar':
    case 'calendar-at-fault':
      return `I don’t know when ${whose(fault.calendar, speaker)} is open. Put that right under “shop rules”, or with “closed …”.`;
    case 'no-hands':
      return 'There is nobody in the shop to do the work. Say “people” to see who is in.';
    case 'too-much':
      return `There is more on its list than I can reckon with: ${fault.activities} pieces of work, and ${fault.atMost} is the most.`;
    case 'unknown-activity':
    case 'twice':
    case 'bad-lead-time':
    case 'bad-lag':
      return 'Something in its build order or its lead times doesn’t hold together. The service’s log says what.';
  }
}

function loop(
  state: JobState,
  { ids, items }: Extract<ModelFault, { kind: 'cycle' }>,
  speaker: Speaker,
): string {
  const { itemsOf } = buildOf(state);
  const steps = state.steps.filter((step) => ids.includes(`step-${step.id}`));
  const theirs = steps.flatMap((step) => (itemsOf.get(step.id) ?? []).map(({ number }) => number));
  const named = [...new Set([...items, ...theirs])].map((item) => itemCalled(state, item, speaker));
  const of = named.length > 0 ? ` (with ${joined(named, 4)})` : '';
  return `${joined(
    steps.map((step) => `“${stepName(step, speaker)}”`),
    6,
  )}${of}`;
}

/** A calendar's key is the shop's, or `of-` a supplier's id. */
function whose(calendar: string, speaker: Speaker): string {
  return calendar.startsWith('of-') ? speaker.name(calendar.slice('of-'.length)) : 'the shop';
}
