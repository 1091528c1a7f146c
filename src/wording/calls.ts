import { waitingFor } from '../job/build-order.js';
import type { JobState, Line as OutLine } from '../job/state.js';
import { stepForItem } from '../job/template.js';
import type { Speaker } from './answer.js';
import { shortDay } from './figures.js';
import type { Line } from './lines.js';
import { capital, grouped, joined } from './lines.js';
import { holdsUp, partBack, promiseWords, withWhom } from './outside.js';
import { forWork } from './terms.js';
import { itemCalled } from './things.js';

/** Something that is out, with the job that it is of, and the days on the hand-over that each day's delay of it costs. */
export type Out = { state: JobState; line: OutLine; delayCost: number };

/**
 * One call a supplier, the one that delays most first: what is promised for the same day stands under their name and
 * number. Things that went together share a row. `several`: the machine is named too.
 */
export function callLines(out: readonly Out[], several: boolean, speaker: Speaker): Line[] {
  const calls = grouped(out, ({ line }) => callOf(line, speaker))
    .map((call) => [...call].sort(mostDelayingFirst))
    .sort((a, b) => costOf(b[0]) - costOf(a[0]));
  return calls.flatMap((theirs) => {
    const [first] = theirs;
    const rows = grouped(theirs, (each) => `${each.state.title} ${workOf(each, speaker)}`);
    return first
      ? [capital(callOf(first.line, speaker)), ...rows.flatMap((row) => rowFor(row, several, speaker))]
      : [];
  });
}

function callOf(line: OutLine, speaker: Speaker): string {
  const who = line.supplier === null ? withWhom(null, speaker) : whoToRing(line.supplier, speaker);
  return `${who}: ${promiseWords(line, speaker)}`;
}

/** To a tenth of a day: what differs by less is as bad. */
const costOf = (out: Out | undefined): number => Math.round((out?.delayCost ?? 0) * 10);

const mostDelayingFirst = (a: Out, b: Out): number =>
  costOf(b) - costOf(a) || stepsHeldBy(b) - stepsHeldBy(a);

/** '• rear mudguard (9) and petrol tank (8), Ketterby: there for painting since 2 March; the first holds up …'. */
function rowFor(row: readonly Out[], several: boolean, speaker: Speaker): string[] {
  const [first] = row;
  const item = first?.state.items[first.line.item];
  if (!first || !item) return [];
  const names = joined(row.map(({ state, line }) => itemCalled(state, line.item, speaker)));
  const held = holdsUp(first.state, item, speaker);
  const holding = held !== '' && row.length > 1 ? `the first ${held}` : held;
  const about = [workOf(first, speaker), holding, delayWords(first.delayCost)]
    .filter((part) => part !== '')
    .join('; ');
  return [`• ${names}${several ? `, ${first.state.title}` : ''}: ${about}`];
}

/** What a day's delay means for the hand-over; empty where it hardly matters. */
export function delayWords(delayCost: number): string {
  if (delayCost >= 0.75) return 'each day of it is a day on the hand-over';
  return delayCost >= 0.25 ? 'each day of it is about half a day on the hand-over' : '';
}

function workOf({ line }: Out, speaker: Speaker): string {
  const since = `since ${shortDay(line.openedOn, speaker)}`;
  const work = line.kind === 'order' ? `on order ${since}` : `there${forWork(line.processes)} ${since}`;
  return [work, partBack(line)].filter((part) => part !== '').join('; ');
}

function stepsHeldBy({ state, line }: Out): number {
  const item = state.items[line.item];
  const step = item ? stepForItem(state.steps, item) : null;
  return step === null ? 0 : 1 + waitingFor(state.steps, step);
}

/** A person's name with the number to ring, where there is one. */
export function whoToRing(person: string, speaker: Speaker): string {
  const number = speaker.phone(person);
  return number === null ? speaker.name(person) : `${speaker.name(person)}, ${number}`;
}
