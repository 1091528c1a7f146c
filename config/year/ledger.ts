import type { Person } from '../../bot/rehearsal/person.js';
import type { Place } from '../../src/trade/terms.js';
import type { JobRun } from './job-run.js';

/** A question of an owner's: in which of their messages it was asked. */
export type Asked = { run: JobRun; message: number };

/** A finding that was put right: the side meant and the one said first, of one part of one machine. */
export type PutRight = { run: JobRun; part: string; meant: Place; not: Place };

/** A finding that was taken back: its part as said, and the message that said it as the record names it. */
export type TakenBack = { run: JobRun; part: string; message: string };

/** Somebody of whom nothing may be left: their name, number and a word of theirs, the chat they had, and when they were forgotten, Unix seconds. */
export type ForgottenOne = { traces: readonly string[]; chat: number | null; at: number };

/** A chat of somebody who is, from an instant on (Unix seconds), nobody of the shop's. */
export type Outsider = { chat: Person; from: number };

/** Days on which the shop was closed, both included. */
export type ClosedDays = { from: string; to: string };

export const isClosed = (closed: readonly ClosedDays[], day: string): boolean =>
  closed.some(({ from, to }) => from <= day && day <= to);

export const COUNTED = [
  'jobs that an owner said no in',
  'owners who wanted to be asked again',
  'owners to whom a price was too dear',
  'rides that failed',
  'slips undone',
  'corrections within a message',
  'corrections by a later message',
  'corrections by editing',
  'poor work refused',
  'work handed back undone',
  'returns in part',
  'people forgotten',
  'guests turned away',
  'strangers who wrote',
  'invitations replayed',
] as const;
export type Counted = (typeof COUNTED)[number];

/** What of the play is looked at after each day, and counted. */
export type Ledger = {
  asked: Asked[];
  putRight: PutRight[];
  takenBack: TakenBack[];
  forgotten: ForgottenOne[];
  outsiders: Outsider[];
  closed: ClosedDays[];
  /** What did not hold as soon as it was said. */
  breaches: string[];
  counts: Partial<Record<Counted, number>>;
};

export const newLedger = (): Ledger => ({
  ...{ asked: [], putRight: [], takenBack: [], forgotten: [], outsiders: [], closed: [], breaches: [] },
  counts: {},
});

export function countOne({ counts }: Ledger, what: Counted): void {
  counts[what] = (counts[what] ?? 0) + 1;
}
