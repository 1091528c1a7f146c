import type { JobEvent } from '../events.js';
import type { Agreement, Finding, Item, JobState } from '../state.js';
import { openLineOf } from '../state.js';

type EventOf<T extends JobEvent['type']> = Extract<JobEvent, { type: T }>;
export type When = { at: number; by: string; message?: string };

/** Changes one item; an event about an item that was undone changes nothing. */
export function withItem(state: JobState, number: number, change: (item: Item) => Partial<Item>): JobState {
  const item = state.items[number];
  if (!item) return state;
  return { ...state, items: { ...state.items, [number]: { ...item, ...change(item) } } };
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
    fitted: false,
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
 * A remedy decided anew starts the item's work afresh, save that the same remedy said again keeps what was
 * done, and work that is out with a supplier stays out.
 */
export function decideRemedy(state: JobState, { data }: EventOf<'remedy-decided'>, when: When): JobState {
  const out = openLineOf(state, data.item) !== null;
  return withItem(state, data.item, (item) => {
    const restated = item.remedy === data.remedy && data.processes.every((p) => item.processes.includes(p));
    const decided: Partial<Item> = {
      remedy: data.remedy,
      decidedAt: when.at,
      processes: restated && data.processes.length === 0 ? item.processes : data.processes,
      supplier: data.supplier ?? (restated || out ? item.supplier : null),
    };
    if (restated) return { ...decided, processes: item.processes };
    const refusedBefore = item.agreement.status === 'no' || item.agreement.status === 'talk';
    return {
      ...decided,
      processesDone: [],
      returned: false,
      workDone: false,
      fitted: false,
      ...(refusedBefore ? { agreement: { status: 'not-asked' } as const } : {}),
    };
  });
}

export function askYes(state: JobState, { data }: EventOf<'yes-asked'>, when: When): JobState {
  return data.items.reduce(
    (after, number) => withItem(after, number, () => ({ agreement: { status: 'asked', at: when.at } })),
    state,
  );
}

/** A yes covers what the work was said to cost when it was given. */
export function answerOwner(state: JobState, { data }: EventOf<'owner-answered'>, when: When): JobState {
  return data.items.reduce(
    (after, number) =>
      withItem(after, number, (item) => {
        const agreement: Agreement = {
          status: data.outcome,
          at: when.at,
          upTo: item.cost ? totalOf(item) : null,
        };
        return { agreement };
      }),
    state,
  );
}

/** What the item's work comes to in major units, counting each piece where the price is for one; null when no price is known. */
export function totalOf(item: Pick<Item, 'cost' | 'count'>): number | null {
  if (!item.cost) return null;
  return item.cost.each ? item.cost.amount * (item.count ?? 1) : item.cost.amount;
}
