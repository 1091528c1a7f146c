import type { RoundUp, RoundUpLine } from '../shop/round-up.js';
import type { Answer, Job, Speaker } from './answer.js';
import { dayOf } from './figures.js';
import type { Line } from './lines.js';
import { bold, joined, listed, message } from './lines.js';
import { holdsUp, outWhere, partBack, promiseWords } from './outside.js';
import { itemCalled, itemName } from './things.js';

const ROWS_AT_MOST = 12;

/** A mechanic's morning: what is overdue and whom to ring about it, what is due, what has no date, which owners haven't answered. */
export function roundUpText(found: RoundUp, jobs: ReadonlyMap<string, Job>, speaker: Speaker): Answer {
  const several = jobs.size > 1;
  const row = (line: RoundUpLine): string[] => rowFor(line, jobs, several, speaker);
  const owners = found.unanswered.flatMap(({ job, items, since }) => {
    const state = jobs.get(job)?.state;
    if (!state) return [];
    const owner = state.owner === null ? 'the owner' : whoToRing(state.owner, speaker);
    const names = joined(
      items.map((number) => itemCalled(state, number, speaker)),
      5,
    );
    return [
      `• ${owner}: asked on ${dayOf(since, speaker)} about ${names}${several ? `, ${state.title}` : ''}`,
    ];
  });
  const lines: Line[] = [
    ...section('Overdue – ring them:', found.overdue.flatMap(row)),
    ...section('Due today:', found.dueToday.flatMap(row)),
    ...section('Out without a date – ask for one:', found.unpromised.flatMap(row)),
    ...section('Owners who haven’t answered:', owners),
  ];
  return message(lines.length > 0 ? lines : ['Good morning. Nothing is overdue or due today.']);
}

function section(heading: string, rows: readonly string[]): Line[] {
  return rows.length === 0 ? [] : [[bold(heading)], ...listed(rows, ROWS_AT_MOST)];
}

/** 'petrol tank (8), Ketterby: with Harl & Dunn, 01632 960123, for chroming since 2 March, … ; holds up …'. */
function rowFor(
  { job, line }: RoundUpLine,
  jobs: ReadonlyMap<string, Job>,
  several: boolean,
  speaker: Speaker,
): string[] {
  const state = jobs.get(job)?.state;
  const item = state?.items[line.item];
  if (!state || !item) return [];
  const number = line.supplier === null ? null : speaker.phone(line.supplier);
  const parts = [
    outWhere(line, speaker),
    partBack(line),
    promiseWords(line, speaker),
    holdsUp(state, item, speaker),
  ];
  const about = parts.filter((part) => part !== '').join('; ');
  const machine = several ? `, ${state.title}` : '';
  return [`• ${itemName(item, speaker)}${machine}: ${about}${number === null ? '' : `. Ring ${number}`}`];
}

function whoToRing(person: string, speaker: Speaker): string {
  const number = speaker.phone(person);
  return number === null ? speaker.name(person) : `${speaker.name(person)}, ${number}`;
}
