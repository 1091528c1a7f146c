import type { Line as OutLine } from '../../job/state.js';
import { isOut, promiseOf } from '../../job/state.js';
import type { Job, Speaker } from '../answer.js';
import { shortDay } from '../figures.js';
import type { Line } from '../lines.js';
import { bold, counted, grouped, joined } from '../lines.js';
import { partBack, promiseWords, withWhom } from '../outside.js';
import { doing } from '../terms.js';
import { itemCalled } from '../things.js';
import type { Ask, Reply } from './ask.js';

/** What suppliers have of ours: one named, or all of them, each with what they were promised for. */
export function holding(ask: Ask, speaker: Speaker): Reply {
  const out = ask.jobs
    .flatMap((job) =>
      Object.values(job.state.lines)
        .filter(isOut)
        .map((line) => ({ job, line })),
    )
    .filter(
      ({ line: { supplier } }) =>
        ask.suppliers.length === 0 || (supplier !== null && ask.suppliers.includes(supplier)),
    );
  if (out.length === 0) {
    const whom = ask.suppliers[0];
    return {
      lines: [whom === undefined ? 'Nothing of ours is out.' : `${speaker.name(whom)} has nothing of ours.`],
    };
  }
  const suppliers = [...new Set(out.map(({ line }) => line.supplier))];
  const several = ask.jobs.length > 1;
  const groups = suppliers.map((supplier) => ({
    supplier,
    theirs: out
      .filter(({ line }) => line.supplier === supplier)
      .sort((a, b) => dueOf(a.line).localeCompare(dueOf(b.line))),
  }));
  return { lines: groups.flatMap(({ supplier, theirs }) => groupLines(supplier, theirs, several, speaker)) };
}

/** Things without a date come last. */
const dueOf = (line: OutLine): string => promiseOf(line)?.due ?? '9999';

function groupLines(
  supplier: string | null,
  theirs: readonly { job: Job; line: OutLine }[],
  several: boolean,
  speaker: Speaker,
): Line[] {
  const phone = supplier === null ? null : speaker.phone(supplier);
  const head: Line = [
    bold(withWhom(supplier, speaker)),
    `${phone === null ? '' : `, ${phone}`}: ${counted(theirs.length, 'thing')}`,
  ];
  const rows = grouped(theirs, ({ job, line }) => `${job.id} ${detailsOf(line, speaker)}`);
  return [head, ...rows.flatMap((row) => rowFor(row, several, speaker))];
}

/** Things of one machine of which the same is to be said share a row. */
function rowFor(row: readonly { job: Job; line: OutLine }[], several: boolean, speaker: Speaker): Line[] {
  const [first] = row;
  if (!first) return [];
  const names = joined(row.map(({ job, line }) => itemCalled(job.state, line.item, speaker)));
  return [`• ${names}${several ? `, ${first.job.state.title}` : ''}: ${detailsOf(first.line, speaker)}`];
}

function detailsOf(line: OutLine, speaker: Speaker): string {
  return [
    line.kind === 'order' ? 'on order' : doing(line.processes),
    `since ${shortDay(line.openedOn, speaker)}`,
    partBack(line),
    promiseWords(line, speaker),
  ]
    .filter((part) => part !== '')
    .join(', ');
}
