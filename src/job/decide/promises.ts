import type { JobCommand } from '../commands.js';
import { event } from '../events.js';
import { resolve } from '../resolve.js';
import type { JobState } from '../state.js';
import { isOut } from '../state.js';
import type { Bench, Decision } from './draft.js';
import { refuse, startDraft } from './draft.js';
import { openLine } from './lines.js';
import { linesMeant } from './lines-meant.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

/**
 * A date for a thing never said to have gone says that it has: the line is opened with it. A date for what nobody
 * outside has, or is to have, is no promise.
 */
export function promise(state: JobState, command: CommandOf<'promise'>, bench: Bench): Decision {
  const { target, supplier, due, by } = command;
  const meant = linesMeant(state, target, supplier, 'all');
  if ('refusal' in meant) return meant;
  if (meant.lines.length > 0) {
    const { lines } = meant;
    return {
      events: lines.map((line) => event('promise-made', { line: line.id, due, by, on: bench.today })),
    };
  }
  const found = resolve(state, target);
  const remedy = found.kind === 'found' ? found.item.remedy : null;
  const goesOut = supplier !== null || remedy === 'send-out' || remedy === 'replace';
  if (found.kind === 'nothing-named' || !goesOut) return refuse({ why: 'nothing-out', supplier });
  const kind = remedy === 'replace' ? 'order' : 'sublet';
  return openLine(startDraft(state), target, { kind, supplier, processes: [], cost: null, due }, bench);
}

/** The supplier's own date for a line; one that has come back in the meantime has no use for it. */
export function promiseLine(
  state: JobState,
  { line: id, due, by }: CommandOf<'promise-line'>,
  bench: Bench,
): Decision {
  const line = state.lines[id];
  if (!line || !isOut(line)) return { events: [] };
  return { events: [event('promise-made', { line: id, due, by, on: bench.today })] };
}

export function answerLines(state: JobState, { lines, text, ready }: CommandOf<'answer-lines'>): Decision {
  const known = lines.filter((line) => state.lines[line]);
  return { events: known.map((line) => event('line-answered', { line, text, ready })) };
}
