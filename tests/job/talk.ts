import type { Cost } from '../../src/hearing/reading.js';
import { blockersOf } from '../../src/job/blockers.js';
import type { Decided, JobCommand, Seen, Target } from '../../src/job/commands.js';
import type { Item, JobState } from '../../src/job/state.js';
import type { Gate, Place, Process } from '../../src/trade/terms.js';
import { RULES } from '../support/given.js';

export const NOTHING: Target = { item: null, part: null, called: null, place: [], count: null };

export const the = (part: string, ...place: Place[]): Target => ({ ...NOTHING, part, place });
export const several = (count: number, part: string, ...place: Place[]): Target => ({
  ...the(part, ...place),
  count,
});
export const number = (item: number): Target => ({ ...NOTHING, item });

export const pounds = (amount: number, more: Partial<Cost> = {}): Cost => ({
  ...{ amount, currency: 'GBP', about: false, each: false, vat: null },
  ...more,
});

type Of<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

export const opened = (more: Partial<Of<'open-job'>> = {}): JobCommand => ({
  ...{
    type: 'open-job',
    title: 'Larkspur',
    model: null,
    template: 'single-separate-gearbox',
    owner: 'owner-1',
  },
  ...{ arrivedOn: '2026-03-02', arrival: null, passed: [] },
  ...more,
});

export const found = (target: Target, more: Partial<Seen & Decided> = {}): JobCommand => ({
  ...{ type: 'log-finding', target, conditions: [], readings: [], stored: null, text: null, attachments: [] },
  ...{ remedy: null, processes: [], supplier: null, cost: null },
  ...more,
});

export const tookOff = (target: Target, more: Partial<Seen & Decided> = {}): JobCommand =>
  ({
    ...found(target, more),
    ...({ type: 'take-off' } as const),
  }) as JobCommand;

export const sent = (target: Target, supplier: string | null, ...processes: Process[]): Of<'send'> => ({
  ...{ type: 'send', target, supplier, processes, cost: null, due: null },
});
export const ordered = (target: Target, supplier: string | null = null): Of<'order'> => ({
  ...{ type: 'order', target, supplier, cost: null, due: null },
});
export const promised = (target: Target, due: string, supplier: string | null = null): Of<'promise'> => ({
  ...{ type: 'promise', target, supplier, due, by: supplier },
});
export const back = (target: Target, more: Partial<Of<'take-back'>> = {}): Of<'take-back'> => ({
  ...{ type: 'take-back', target, supplier: null, outcome: 'all', count: null, text: null },
  ...more,
});
export const fitted = (target: Target, more: Partial<Seen> = {}): JobCommand => ({
  ...{ type: 'fit', target, conditions: [], readings: [], stored: null, text: null, attachments: [] },
  ...more,
});
export const step = (id: string): JobCommand => ({ type: 'fit-step', step: id });
export const pass = (gate: Gate): JobCommand => ({ type: 'pass-gate', gate });
export const answered = (outcome: 'yes' | 'no' | 'talk', ...items: number[]): JobCommand => ({
  ...{ type: 'answer', items, outcome, text: null },
});
export const undo = (message: string): JobCommand => ({ type: 'undo', message });

/** Every check done and the ride passed. */
export const setUpAndRidden = (state: JobState): JobCommand[] => [
  ...state.checks.map(({ id }): JobCommand => ({ type: 'do-check', check: id, text: null })),
  { type: 'road-test', outcome: 'pass', text: null, faults: [] },
];

export const allSteps = (state: JobState): JobCommand[] => state.steps.map(({ id }) => step(id));

/** What blocks a gate, as `kind` or `kind item`. */
export const blocks = (state: JobState, gate: Gate): string[] =>
  blockersOf(state, gate, RULES).map(({ kind, item }) => (item === null ? kind : `${kind} ${item}`));

/** The same without steps that only wait to be fitted, which a machine in pieces has many of. */
export const holds = (state: JobState, gate: Gate): string[] =>
  blocks(state, gate).filter((each) => each !== 'to-fit' && each !== 'step-waits');

export const passedGates = (state: JobState): string[] =>
  Object.entries(state.gates).flatMap(([gate, { passed }]) => (passed ? [gate] : []));

export function itemOf(state: JobState, item: number): Item {
  const found = state.items[item];
  if (!found) throw new Error(`no item ${item}`);
  return found;
}

export const lineOf = (state: JobState, item: number, nth = 0) => {
  const line = Object.values(state.lines).filter((each) => each.item === item)[nth];
  if (!line) throw new Error(`item ${item} has no line ${nth}`);
  return line;
};
