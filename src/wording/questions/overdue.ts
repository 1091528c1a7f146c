import type { Line as OutLine } from '../../job/state.js';
import { promiseOf } from '../../job/state.js';
import { isOverdue } from '../../shop/round-up.js';
import type { Job, Speaker } from '../answer.js';
import { callLines } from '../calls.js';
import { delayCostOf } from '../plan.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem } from './ask.js';

/** What should be back by now, what delays most first, else the longest overdue, with the number to ring. */
export function overdue(ask: Ask, speaker: Speaker): Reply {
  const late = ask.jobs
    .flatMap((job) => Object.values(job.state.lines).map((line) => ({ job, line })))
    .filter(({ job, line }) => isOverdue(line, speaker.today) && isAsked(ask, job, line))
    .sort((a, b) => dueOf(a.line).localeCompare(dueOf(b.line)));
  if (late.length === 0) return { lines: ['Nothing is overdue.'] };
  const out = late.map(({ job: { id, state }, line }) => {
    const delayCost = delayCostOf(ask.plans.get(id), line.id);
    return { state, line, delayCost };
  });
  return { lines: callLines(out, ask.jobs.length > 1, speaker) };
}

const dueOf = (line: OutLine): string => promiseOf(line)?.due ?? '';

function isAsked(ask: Ask, { state }: Job, { supplier, item }: OutLine): boolean {
  if (namesItem(ask)) return itemsAsked(state, ask).some(({ number }) => number === item);
  return ask.suppliers.length === 0 || (supplier !== null && ask.suppliers.includes(supplier));
}
