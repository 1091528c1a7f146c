import type { RoundUp, RoundUpLine } from '../shop/round-up.js';
import type { Answer, Job, Speaker } from './answer.js';
import { dayOf, shortDay } from './figures.js';
import type { Line } from './lines.js';
import { bold, capital, joined, listed, message } from './lines.js';
import { holdsUp, partBack, promiseWords, withWhom } from './outside.js';
import { forWork } from './terms.js';
import { itemCalled, itemName } from './things.js';

const ROWS_AT_MOST = 12;

/** A mechanic's morning: what is overdue and whom to ring about it, what is due, what has no date, which owners haven't answered. */
export function roundUpText(found: RoundUp, jobs: ReadonlyMap<string, Job>, speaker: Speaker): Answer {
  const several = jobs.size > 1;
  const rows = (lines: readonly RoundUpLine[]): Line[] => bySupplier(lines, jobs, several, speaker);
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
    ...section('Overdue – ring them:', rows(found.overdue)),
    ...section('Due today:', rows(found.dueToday)),
    ...section('Out without a date – ask for one:', rows(found.unpromised)),
    ...section('Owners who haven’t answered:', owners),
  ];
  return message(lines.length > 0 ? lines : ['Good morning. Nothing is overdue or due today.']);
}

function section(heading: string, rows: readonly Line[]): Line[] {
  return rows.length === 0 ? [] : [[bold(heading)], ...listed(rows, ROWS_AT_MOST)];
}

/** One call a supplier: what is promised for the same day stands under their name and number, in the order of what it holds up. */
function bySupplier(
  lines: readonly RoundUpLine[],
  jobs: ReadonlyMap<string, Job>,
  several: boolean,
  speaker: Speaker,
): Line[] {
  const calls = new Map<string, RoundUpLine[]>();
  for (const each of lines) {
    const { supplier } = each.line;
    const who = supplier === null ? withWhom(null, speaker) : whoToRing(supplier, speaker);
    const call = `${who}: ${promiseWords(each.line, speaker)}`;
    calls.set(call, [...(calls.get(call) ?? []), each]);
  }
  return [...calls].flatMap(([call, theirs]) => [
    capital(call),
    ...theirs.flatMap((line) => rowFor(line, jobs, several, speaker)),
  ]);
}

/** '• petrol tank (8), Ketterby: for painting since 2 March; holds up …'. */
function rowFor(
  { job, line }: RoundUpLine,
  jobs: ReadonlyMap<string, Job>,
  several: boolean,
  speaker: Speaker,
): string[] {
  const state = jobs.get(job)?.state;
  const item = state?.items[line.item];
  if (!state || !item) return [];
  const since = `since ${shortDay(line.openedOn, speaker)}`;
  const work = line.kind === 'order' ? `on order ${since}` : `there${forWork(line.processes)} ${since}`;
  const about = [work, partBack(line), holdsUp(state, item, speaker)]
    .filter((part) => part !== '')
    .join('; ');
  return [`• ${itemName(item, speaker)}${several ? `, ${state.title}` : ''}: ${about}`];
}

function whoToRing(person: string, speaker: Speaker): string {
  const number = speaker.phone(person);
  return number === null ? speaker.name(person) : `${speaker.name(person)}, ${number}`;
}
