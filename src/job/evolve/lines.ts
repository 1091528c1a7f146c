import type { JobEvent } from '../events.js';
import type { Process } from '../../trade/terms.js';
import type { Item, JobState, Line } from '../state.js';
import { outstanding } from '../work.js';
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
    readyAt: null,
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
  return withLine(state, data.line, ({ readyAt }) => ({
    answeredAt: when.at,
    answer: data.text,
    readyAt: data.ready ? when.at : readyAt,
  }));
}

export function placeLine(state: JobState, { data }: EventOf<'line-placed'>): JobState {
  return withLine(state, data.line, () => ({ supplier: data.supplier }));
}

/** 'All' and 'part' count what came; a refused return is not done, and the item waits here to be sent again. */
export function returnLine(state: JobState, { data }: EventOf<'line-returned'>): JobState {
  const line = state.lines[data.line];
  if (!line) return state;
  const returned = withLine(state, data.line, (was) => ({
    status: data.outcome === 'all' ? 'back' : data.outcome,
    countBack: countBack(was, data.outcome, data.count),
    returnedOn: data.on,
    returnedText: data.text,
  }));
  switch (data.outcome) {
    case 'part':
      return returned;
    case 'all':
      return withItem(returned, line.item, (item) => doneBy(line, item));
    case 'refused':
      return withItem(returned, line.item, (item) => ({
        processesDone: item.processesDone.filter((process) => !workOf(line, item).includes(process)),
        returned: false,
        fitted: false,
      }));
  }
}

function countBack(line: Line, outcome: Outcome, count: number | null): number {
  if (outcome === 'refused') return line.countBack;
  return outcome === 'all' && line.count !== null ? line.count : line.countBack + (count ?? 0);
}

type Outcome = EventOf<'line-returned'>['data']['outcome'];

/** What was ordered settles a 'replace', what was sent out a 'send-out' once all its processes are done; neither the other. */
function doneBy(line: Line, item: Item): Partial<Item> {
  const processesDone = [...new Set([...item.processesDone, ...workOf(line, item)])];
  const settles = line.kind === 'order' ? item.remedy === 'replace' : item.remedy === 'send-out';
  const returned = settles && outstanding({ ...item, processesDone }).length === 0;
  return { processesDone, returned: item.returned || returned };
}

const workOf = (line: Line, item: Item): Process[] =>
  line.processes.length > 0 ? line.processes : item.processes;
