import type { Line as OutLine } from '../../job/state.js';
import { promiseOf } from '../../job/state.js';
import { isOverdue } from '../../shop/round-up.js';
import type { Job, Speaker } from '../answer.js';
import type { Line } from '../lines.js';
import { bold } from '../lines.js';
import { holdsUp, outWhere, promiseWords } from '../outside.js';
import { itemName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { itemsAsked, namesItem } from './ask.js';

/** What should be back by now, the longest overdue first, with the number to ring. */
export function overdue(ask: Ask, speaker: Speaker): Reply {
  const late = ask.jobs
    .flatMap((job) => Object.values(job.state.lines).map((line) => ({ job, line })))
    .filter(({ job, line }) => isOverdue(line, speaker.today) && isAsked(ask, job, line))
    .sort((a, b) => dueOf(a.line).localeCompare(dueOf(b.line)));
  if (late.length > 0)
    return { lines: late.flatMap(({ job, line }) => row(job, line, ask.jobs.length > 1, speaker)) };
  return { lines: ['Nothing is overdue.'] };
}

const dueOf = (line: OutLine): string => promiseOf(line)?.due ?? '';

function isAsked(ask: Ask, { state }: Job, { supplier, item }: OutLine): boolean {
  if (namesItem(ask)) return itemsAsked(state, ask).some(({ number }) => number === item);
  return ask.suppliers.length === 0 || (supplier !== null && ask.suppliers.includes(supplier));
}

function row({ state }: Job, line: OutLine, several: boolean, speaker: Speaker): Line[] {
  const item = state.items[line.item];
  if (!item) return [];
  const number = line.supplier === null ? null : speaker.phone(line.supplier);
  const held = holdsUp(state, item, speaker);
  const words = [`${outWhere(line, speaker)}, ${promiseWords(line, speaker)}`, held]
    .filter((part) => part !== '')
    .join('; ');
  const name = `${itemName(item, speaker)}${several ? `, ${state.title}` : ''}`;
  return [[bold(name), `: ${words}.${number === null ? '' : ` Ring ${number}.`}`]];
}
