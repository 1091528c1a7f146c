import type { RoundUp, RoundUpLine } from '../shop/round-up.js';
import type { Answer, Job, Speaker } from './answer.js';
import { callLines, whoToRing } from './calls.js';
import { dayOf } from './figures.js';
import type { Line } from './lines.js';
import { bold, joined, listed, message } from './lines.js';
import type { JobPlan } from './plan.js';
import { delayCostOf } from './plan.js';
import { itemCalled } from './things.js';

const ROWS_AT_MOST = 12;

/** A mechanic's morning: what is overdue and whom to ring about it, what is due, what has no date, which owners haven't answered. */
export function roundUpText(
  found: RoundUp,
  jobs: ReadonlyMap<string, Job>,
  plans: ReadonlyMap<string, JobPlan>,
  speaker: Speaker,
): Answer {
  const several = jobs.size > 1;
  const rows = (lines: readonly RoundUpLine[]): Line[] =>
    callLines(
      lines.flatMap(({ job, line }) => {
        const state = jobs.get(job)?.state;
        return state ? [{ state, line, delayCost: delayCostOf(plans.get(job), line.id) }] : [];
      }),
      several,
      speaker,
    );
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
