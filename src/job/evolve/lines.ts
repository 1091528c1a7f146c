import type { JobEvent } from '../events.js';
import type { JobState, Line } from '../state.js';
import type { When } from './items.js';
import { withItem } from './items.js';

type EventOf<T extends JobEvent['type']> = Extract<JobEvent, { type: T }>;

function withLine(state: JobState, id: string, change: (line: Line) => Partial<Line>): JobState {
  const line = state.lines[id];
  if (!line) return state;
  return { ...state, lines: { ...state.lines, [id]: { ...line, ...change(line) } } };
}

export function openLine(state: JobState, { data }: EventOf<'line-opened'>, when: When): JobState {
  const line: Line = {
    id: data.line,
    kind: data.kind,
    item: data.item,
    supplier: data.supplier,
    processes: data.processes,
    count: data.count,
    status: 'open',
    openedOn: data.on,
    openedAt: when.at,
    promises: data.due ? [{ due: data.due, on: data.on, by: data.supplier, at: when.at }] : [],
    answeredAt: null,
    answer: null,
    countBack: 0,
    returnedOn: null,
    returnedText: null,
  };
  const withOpened = { ...state, lines: { ...state.lines, [line.id]: line } };
  return withItem(withOpened, data.item, (item) => ({
    supplier: data.supplier ?? item.supplier,
    returned: false,
    fitted: false,
    stored: data.kind === 'sublet' ? null : item.stored,
    takenOff: item.takenOff || data.kind === 'sublet',
  }));
}

export function makePromise(state: JobState, { data }: EventOf<'promise-made'>, when: When): JobState {
  return withLine(state, data.line, (line) => ({
    promises: [...line.promises, { due: data.due, on: data.on, by: data.by, at: when.at }],
  }));
}

export function answerLine(state: JobState, { data }: EventOf<'line-answered'>, when: When): JobState {
  return withLine(state, data.line, () => ({ answeredAt: when.at, answer: data.text }));
}

/** 'All' and 'part' count what came; a refused return is not done, and the item waits here to be sent again. */
export function returnLine(state: JobState, { data }: EventOf<'line-returned'>): JobState {
  const line = state.lines[data.line];
  if (!line) return state;
  const status = data.outcome === 'all' ? 'back' : data.outcome;
  const returned = withLine(state, data.line, (was) => ({
    status,
    countBack: data.outcome === 'refused' ? was.countBack : was.countBack + (data.count ?? 0),
    returnedOn: data.on,
    returnedText: data.text,
  }));
  if (data.outcome !== 'all') return returned;
  return withItem(returned, line.item, (item) => {
    const done = line.processes.length > 0 ? line.processes : item.processes;
    const processesDone = [...new Set([...item.processesDone, ...done])];
    const allDone = line.kind === 'order' || item.processes.every((p) => processesDone.includes(p));
    return { processesDone, returned: allDone };
  });
}
