import type { Remedy } from '../../trade/terms.js';
import type { JobEvent } from '../events.js';
import type { Agreement, Finding, Item, JobState } from '../state.js';
import { openLineOf } from '../state.js';
import { stepForItem } from '../template.js';
import { isDone, totalOf } from '../work.js';

type EventOf<T extends JobEvent['type']> = Extract<JobEvent, { type: T }>;
export type When = { at: number; by: string; message?: string };

/** Changes one item; an event about an item that was undone changes nothing. */
export function withItem(state: JobState, number: number, change: (item: Item) => Partial<Item>): JobState {
  const item = state.items[number];
  if (!item) return state;
  return { ...state, items: { ...state.items, [number]: { ...item, ...change(item) } } };
}

/** What is first spoken of when its step is built up already is on the machine. */
function isOnMachine(state: JobState, item: Pick<Item, 'part' | 'group' | 'place'>): boolean {
  const step = stepForItem(state.steps, item);
  return state.steps.some(({ id, fitted }) => id === step && fitted);
}

export function listItem(state: JobState, { data }: EventOf<'item-listed'>, when: When): JobState {
  const item: Item = {
    number: data.item,
    part: data.part,
    called: data.called,
    group: data.group,
    place: data.place,
    count: data.count,
    listedAt: when.at,
    takenOff: false,
    stored: null,
    findings: [],
    remedy: null,
    decidedAt: null,
    processes: [],
    supplier: null,
    cost: null,
    agreement: { status: 'not-asked' },
    processesDone: [],
    returned: false,
    workDone: false,
    fitted: isOnMachine(state, data),
    cautions: [],
  };
  return { ...state, items: { ...state.items, [data.item]: item } };
}

export function correctItem(state: JobState, { data }: EventOf<'item-corrected'>): JobState {
  return withItem(state, data.item, (item) => ({
    part: data.part,
    called: data.part === null ? item.called : null,
    group: data.group,
    place: data.place,
    count: data.count,
  }));
}

export function logFinding(state: JobState, { data }: EventOf<'finding-logged'>, when: When): JobState {
  const finding: Finding = {
    conditions: data.conditions,
    readings: data.readings,
    place: data.place,
    text: data.text,
    attachments: data.attachments,
    at: when.at,
    by: when.by,
    message: when.message ?? null,
  };
  return withItem(state, data.item, (item) => ({ findings: [...item.findings, finding] }));
}

/**
 * The same remedy said again of work in hand adds to it and keeps what was done. A remedy for work that is done, or
 * another one, starts the item's work afresh; what was agreed of earlier work does not cover it.
 */
export function decideRemedy(state: JobState, { data }: EventOf<'remedy-decided'>, when: When): JobState {
  return withItem(state, data.item, (item) => {
    const decided = {
      remedy: data.remedy,
      decidedAt: when.at,
      supplier: data.supplier ?? supplierKept(state, item, data),
    };
    return isInHand(item, data)
      ? { ...decided, processes: [...new Set([...item.processes, ...data.processes])] }
      : { ...decided, ...afresh(item, data) };
  });
}

type Decided = EventOf<'remedy-decided'>['data'];

/** What the owner refused is not added to: other work is other work. */
function isInHand(item: Item, { remedy, processes }: Decided): boolean {
  const isRefused = item.agreement.status === 'no' || item.agreement.status === 'talk';
  const isNew = processes.some((process) => !item.processes.includes(process));
  return item.remedy === remedy && !isDone(item) && !(isRefused && isNew);
}

function afresh(item: Item, { remedy, processes }: Decided): Partial<Item> {
  const isAgain = item.remedy === remedy && processes.length === 0;
  return {
    processes: isAgain ? item.processes : processes,
    processesDone: [],
    returned: false,
    workDone: false,
    fitted: item.fitted && (remedy === 'keep' || remedy === 'check'),
    // What an outside firm asked says nothing of work done here.
    ...(item.remedy !== null && item.remedy !== remedy && isDoneHere(remedy) ? { cost: null } : {}),
    ...(item.remedy === null ? {} : { agreement: { status: 'not-asked' } as const }),
  };
}

function isDoneHere(remedy: Remedy): boolean {
  return remedy !== 'send-out' && remedy !== 'replace' && remedy !== 'make';
}

function supplierKept(state: JobState, item: Item, { remedy }: Decided): string | null {
  return item.remedy === remedy || openLineOf(state, item.number) !== null ? item.supplier : null;
}

export function askYes(state: JobState, { data }: EventOf<'yes-asked'>, when: When): JobState {
  return data.items.reduce(
    (after, number) =>
      withItem(after, number, (item) => ({
        agreement: { status: 'asked', at: when.at, upTo: totalOf(item) },
      })),
    state,
  );
}

/**
 * A yes covers what the work was said to cost: what it was when the owner was asked, where they answer themselves; what
 * it is now, where a mechanic passes their word on.
 */
export function answerOwner(state: JobState, { data }: EventOf<'owner-answered'>, when: When): JobState {
  return data.items.reduce(
    (after, number) =>
      withItem(after, number, (item) => {
        const asked =
          when.by === state.owner && 'upTo' in item.agreement ? item.agreement.upTo : totalOf(item);
        const agreement: Agreement = { status: data.outcome, at: when.at, upTo: asked };
        return { agreement };
      }),
    state,
  );
}
