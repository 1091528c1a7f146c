import type { Gate } from '../../src/trade/terms.js';

/** What happened in the shop, as its people know it; `at` in Unix ms, dates local. */
export type Note = { at: number; job: string } & (
  | { what: 'out'; part: string; supplier: string; kind: 'sent' | 'ordered'; promised: string }
  /** It came, and was taken or refused: either way the supplier has it no more. */
  | { what: 'back'; part: string; supplier: string; refused: boolean }
  /** The supplier gave another day for it. */
  | { what: 'new-date'; part: string; supplier: string; promised: string }
  /** Found, with what is to be done about it. */
  | { what: 'found'; part: string; wants: 'sent' | 'ordered' | 'done'; cost: number }
  | { what: 'worked'; part: string }
  | { what: 'agreed' | 'built' | 'checked' | 'handed-over' }
  | { what: 'ridden'; passed: boolean }
  /** A gate, or the whole, is wanted by a day. */
  | { what: 'wanted'; gate: Gate | null; by: string }
);

/** A gate's button pressed, and how many notes there were by then. */
export type Pass = { job: string; gate: Gate; at: number; after: number };
