import type { Blocker } from '../job/blockers.js';
import type { Gate } from '../trade/terms.js';
import type { Answer, Job, Speaker } from './answer.js';
import { plain } from './answer.js';
import { blockerLine } from './blocking.js';
import { day } from './figures.js';
import type { Line } from './lines.js';
import { bold, capital, counted, listed, message } from './lines.js';
import { gateName } from './terms.js';

type Wanted = { gate: Gate | null; date: string; step: string };

/** To a mechanic: a day that something is wanted by nears, or was missed, with what is in the way. */
export function nudgeText(
  { id, state }: Job,
  wanted: Wanted | null,
  blockers: readonly Blocker[],
  speaker: Speaker,
): Answer {
  if (wanted === null)
    return plain(`Nothing of ${state.title} is wanted by a day any more; there is nothing to do.`);
  const what = wanted.gate === null ? 'Finished' : capital(gateName(wanted.gate));
  const when = `${what} by ${day(wanted.date, speaker)}`;
  const before = /^before-(\d+)$/.exec(wanted.step)?.[1];
  const head =
    wanted.step === 'missed'
      ? `${when} was missed.`
      : `${when}: ${before === undefined ? 'soon' : `${counted(Number(before), 'working day')} left`}.`;
  const holding = blockers.filter(({ kind }) => kind !== 'step-waits');
  const rows = holding.map((blocker) => `• ${blockerLine(state, blocker, speaker)}`);
  const lines: Line[] = [
    [bold(state.title), ` – ${head}`],
    ...(rows.length === 0 ? ['Nothing is in the way.'] : ['In the way:', ...listed(rows, 8)]),
  ];
  const question = { about: 'blocking' as const, gate: wanted.gate, part: null, supplier: null };
  return {
    ...message(
      lines,
      rows.length > 8
        ? [[{ label: 'The rest', action: { do: 'answer-more', job: id, question, item: null } }]]
        : [],
    ),
    thread: { jobs: [id], message: '', item: null },
  };
}
