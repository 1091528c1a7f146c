import { waitingFor } from '../job/build-order.js';
import type { Item, JobState, Line } from '../job/state.js';
import { promiseOf } from '../job/state.js';
import { stepForItem } from '../job/template.js';
import type { Speaker } from './answer.js';
import { day, daysBetween, shortDay } from './figures.js';
import { counted } from './lines.js';
import { forWork } from './terms.js';
import { stepName } from './things.js';

/** Whom a thing is with: the supplier's name, or that none was said. */
export function withWhom(supplier: string | null, speaker: Speaker): string {
  return supplier === null ? 'a supplier not named' : speaker.name(supplier);
}

/** Where and since when something is out: 'with Harl & Dunn for chroming since 2 March', 'on order from …'. */
export function outWhere(line: Line, speaker: Speaker): string {
  const since = `since ${shortDay(line.openedOn, speaker)}`;
  if (line.kind === 'order') {
    const from = line.supplier === null ? '' : ` from ${speaker.name(line.supplier)}`;
    return `on order${from} ${since}`;
  }
  return `with ${withWhom(line.supplier, speaker)}${forWork(line.processes)} ${since}`;
}

/** When something that is out should come: 'promised for Fri 13 March', 'promised for Fri 6 March, 3 days overdue', 'no date given'. */
export function promiseWords(line: Line, speaker: Speaker): string {
  const promise = promiseOf(line);
  if (promise === null) return 'no date given';
  if (promise.due === speaker.today) return 'promised for today';
  const promised = `promised for ${day(promise.due, speaker)}`;
  return promise.due < speaker.today
    ? `${promised}, ${daysBetween(promise.due, speaker.today)} overdue`
    : promised;
}

/** How much of it has come, where it comes in pieces: '2 of 4 back', else empty. */
export function partBack({ status, countBack, count }: Line): string {
  if (status !== 'part') return '';
  if (countBack === 0) return 'part of it back';
  return count === null ? `${countBack} back` : `${countBack} of ${count} back`;
}

/** All of a line that is out: where, how much came, when the rest should. */
export function outWords(line: Line, speaker: Speaker): string {
  return [outWhere(line, speaker), partBack(line), promiseWords(line, speaker)]
    .filter((part) => part !== '')
    .join(', ');
}

/** What waits for an item: 'holds up “Fit the fork” and 6 steps after it'; empty where no step wants it. */
export function holdsUp(state: JobState, item: Item, speaker: Speaker): string {
  const id = stepForItem(state.steps, item);
  const step = state.steps.find((each) => each.id === id);
  if (!step) return '';
  const after = waitingFor(state.steps, step.id);
  const more = after === 0 ? '' : ` and ${counted(after, 'step')} after it`;
  return `holds up “${stepName(step, speaker)}”${more}`;
}
