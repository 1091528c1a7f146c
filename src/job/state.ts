import type { Cost, Measured } from '../hearing/reading.js';
import type { Condition, Gate, Place, Process, Remedy } from '../trade/terms.js';
import type { Attachment } from './events.js';
import type { MessagesSaid } from './messages-said.js';

/** A local calendar date, `YYYY-MM-DD`. */
export type IsoDate = string;

export type Finding = {
  conditions: Condition[];
  readings: Measured[];
  place: Place[];
  text: string | null;
  attachments: Attachment[];
  at: number;
  by: string;
  message: string | null;
};

export type Agreement =
  | { status: 'not-asked' }
  /** With what the work was said to cost when it was asked about: that is what the owner answers to. */
  | { status: 'asked'; at: number; upTo: number | null }
  | { status: 'yes' | 'no' | 'talk'; at: number; upTo: number | null };

export type Item = {
  number: number;
  part: string | null;
  /** Words as said, for a thing that the lexicon doesn't know. */
  called: string | null;
  group: string | null;
  place: Place[];
  count: number | null;
  listedAt: number;
  takenOff: boolean;
  stored: string | null;
  findings: Finding[];
  remedy: Remedy | null;
  decidedAt: number | null;
  processes: Process[];
  /** Whom the mechanic means to use, or used last. */
  supplier: string | null;
  cost: Cost | null;
  agreement: Agreement;
  /** Processes that came back done since the remedy was decided. */
  processesDone: Process[];
  /** The whole of what was sent or ordered came back right since the remedy was decided. */
  returned: boolean;
  /** Cleaned, repaired or made since that was decided. */
  workDone: boolean;
  fitted: boolean;
  cautions: string[];
};

export type LinePromise = { due: IsoDate; on: IsoDate; by: string | null; at: number };

export type Line = {
  id: string;
  kind: 'order' | 'sublet';
  item: number;
  supplier: string | null;
  processes: Process[];
  count: number | null;
  status: 'open' | 'part' | 'back' | 'refused';
  openedOn: IsoDate;
  openedAt: number;
  promises: LinePromise[];
  /** When the supplier last wrote about it. */
  answeredAt: number | null;
  answer: string | null;
  /** When the supplier said that it is ready. */
  readyAt: number | null;
  countBack: number;
  returnedOn: IsoDate | null;
  returnedText: string | null;
};

export type Step = {
  id: string;
  /** Plain text from the template, or words said at the bench. */
  name: { kind: 'template'; text: string } | { kind: 'said'; text: string };
  parts: string[];
  groups: string[];
  place: Place | null;
  after: string[];
  hours: number;
  watch: string | null;
  /** Calendar days to let pass, from a step or from the last one waited for. */
  waits: { days: number; for: string; after: string | null }[];
  fitted: boolean;
  fittedAt: number | null;
};

export type Fault = {
  number: number;
  item: number | null;
  text: string;
  foundAt: number;
  clearedAt: number | null;
};

export type Notice = {
  id: string;
  about: 'passed' | 'reopened' | 'silence' | 'handed-over';
  gate: Gate | null;
  draftedAt: number;
  releasedAt: number | null;
  status: 'drafted' | 'released' | 'dropped';
};

export type GateState = { passed: boolean; at: number | null; everPassed: boolean };

export type Check = { id: string; name: string; doneAt: number | null };

export type JobState = {
  status: 'none' | 'open' | 'handed-over';
  title: string;
  model: string | null;
  template: string;
  owner: string | null;
  arrivedOn: IsoDate;
  openedAt: number;
  arrival: { text: string; attachments: Attachment[] }[];
  items: Readonly<Record<number, Item>>;
  lines: Readonly<Record<string, Line>>;
  steps: readonly Step[];
  checks: readonly Check[];
  roadTest: { outcome: 'pass' | 'fail'; at: number; text: string | null } | null;
  faults: readonly Fault[];
  gates: Readonly<Record<Gate, GateState>>;
  wantedBy: {
    job: IsoDate | null;
    gates: Partial<Record<Gate, IsoDate>>;
    /** When each day was set, ms. */
    setAt: Partial<Record<Gate | 'job', number>>;
  };
  notices: readonly Notice[];
  notes: readonly { item: number | null; text: string; attachments: Attachment[]; at: number; by: string }[];
  /** Content hash of each attachment fetched, or why it could not be had, by the chat's unique id. */
  fetched: Readonly<Record<string, { hash: string } | { lost: 'too-big' | 'gone' | 'no-room' }>>;
  /** The chat messages that said something of this job and were not undone. */
  messages: MessagesSaid;
  lastEventAt: number;
  /** The place in the stream of the last event: ids made from it come once, whatever is undone. */
  version: number;
  handedOverOn: IsoDate | null;
};

export const GATES_UNPASSED: Readonly<Record<Gate, GateState>> = {
  stripped: { passed: false, at: null, everPassed: false },
  inspected: { passed: false, at: null, everPassed: false },
  'parts-ordered': { passed: false, at: null, everPassed: false },
  'sublet-out': { passed: false, at: null, everPassed: false },
  reassembled: { passed: false, at: null, everPassed: false },
  'road-tested': { passed: false, at: null, everPassed: false },
};

export const NO_JOB: JobState = {
  status: 'none',
  title: '',
  model: null,
  template: '',
  owner: null,
  arrivedOn: '',
  openedAt: 0,
  arrival: [],
  items: {},
  lines: {},
  steps: [],
  checks: [],
  roadTest: null,
  faults: [],
  gates: GATES_UNPASSED,
  wantedBy: { job: null, gates: {}, setAt: {} },
  notices: [],
  notes: [],
  fetched: {},
  messages: [],
  lastEventAt: 0,
  version: 0,
  handedOverOn: null,
};

/** The promise that counts now: the last one made. */
export function promiseOf(line: Line): LinePromise | null {
  return line.promises.at(-1) ?? null;
}

/** Whether the line is still with the supplier, wholly or in part. */
export function isOut(line: Line): boolean {
  return line.status === 'open' || line.status === 'part';
}

/** All lines of an item, oldest first. */
export function linesOf(state: JobState, item: number): Line[] {
  return Object.values(state.lines).filter((line) => line.item === item);
}

/** The line of an item that is still out, if one is. */
export function openLineOf(state: JobState, item: number): Line | null {
  return linesOf(state, item).find(isOut) ?? null;
}
