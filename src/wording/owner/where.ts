import type { Item, JobState } from '../../job/state.js';
import { openLineOf, promiseOf } from '../../job/state.js';
import type { Speaker } from '../answer.js';
import { day } from '../figures.js';
import { capital } from '../lines.js';
import { forWork } from '../terms.js';
import { thingName } from '../things.js';
import { proposal } from './standing.js';

/** How one thing of theirs is coming on; no supplier is named, no blame is laid. */
export function whereForOwner(state: JobState, item: Item, speaker: Speaker): string {
  const found = proposal(item);
  return `${capital(thingName(item, speaker))}: ${[where(state, item, speaker), found].filter((part) => part !== '').join('; ')}.`;
}

function where(state: JobState, item: Item, speaker: Speaker): string {
  const line = openLineOf(state, item.number);
  if (line) {
    const due = promiseOf(line)?.due ?? null;
    const expected = due !== null && due >= speaker.today ? `, expected ${day(due, speaker)}` : '';
    return `${line.kind === 'order' ? 'on order' : `away${forWork(line.processes)}`}${expected}`;
  }
  if (item.fitted) return 'back on the machine';
  return item.takenOff || item.returned || item.workDone ? 'here in the workshop' : 'on the machine';
}
