import type { Cost, Measured } from '../hearing/reading.js';
import type { Condition, Gate, Place, Process, Remedy } from '../trade/terms.js';
import type { Attachment } from './events.js';
import type { IsoDate, Notice } from './state.js';

/** The thing spoken of: by its number, or by the trade's name and where it sits, or as it was called. */
export type Target = {
  item: number | null;
  part: string | null;
  /** Text id of what it was called, where the lexicon has no name for it. */
  called: string | null;
  place: Place[];
  count: number | null;
};

export type Decided = {
  remedy: Remedy | null;
  processes: Process[];
  supplier: string | null;
  cost: Cost | null;
};

export type Seen = {
  conditions: Condition[];
  readings: Measured[];
  stored: string | null;
  text: string | null;
  attachments: Attachment[];
};

export type JobCommand =
  | {
      type: 'open-job';
      title: string;
      model: string | null;
      template: string;
      owner: string | null;
      arrivedOn: IsoDate;
      arrival: { text: string; attachments: Attachment[] } | null;
      /** Gates that the restoration had passed before the job was opened here. */
      passed: Gate[];
    }
  | { type: 'note-arrival'; text: string; attachments: Attachment[] }
  | { type: 'name-owner'; owner: string }
  | ({ type: 'log-finding'; target: Target } & Seen & Decided)
  | ({ type: 'take-off'; target: Target } & Seen & Decided)
  | { type: 'price'; target: Target; cost: Cost }
  | { type: 'order'; target: Target; supplier: string | null; cost: Cost | null; due: IsoDate | null }
  | {
      type: 'send';
      target: Target;
      supplier: string | null;
      processes: Process[];
      cost: Cost | null;
      due: IsoDate | null;
    }
  | { type: 'promise'; target: Target; supplier: string | null; due: IsoDate; by: string | null }
  | {
      type: 'take-back';
      target: Target;
      supplier: string | null;
      outcome: 'all' | 'part' | 'refused';
      count: number | null;
      text: string | null;
    }
  | { type: 'promise-line'; line: string; due: IsoDate; by: string | null }
  | { type: 'answer-lines'; lines: string[]; text: string; ready: boolean }
  | { type: 'work-done'; target: Target }
  | ({ type: 'fit'; target: Target } & Seen)
  | { type: 'fit-step'; step: string }
  | { type: 'undo-step'; step: string }
  | { type: 'add-step'; name: string; after: string[]; before: string[]; parts: string[]; hours: number }
  | { type: 'drop-step'; step: string }
  | { type: 'link-step'; step: string; after: string; linked: boolean }
  | { type: 'time-step'; step: string; hours: number }
  | { type: 'do-check'; check: string; text: string | null }
  | { type: 'road-test'; outcome: 'pass' | 'fail'; text: string | null; faults: string[] }
  | { type: 'find-fault'; target: Target | null; text: string }
  | { type: 'clear-fault'; fault: number }
  | { type: 'ask-yes'; items: number[] }
  | { type: 'answer'; items: number[]; outcome: 'yes' | 'no' | 'talk'; text: string | null }
  | { type: 'want-by'; gate: Gate | null; date: IsoDate | null }
  | { type: 'pass-gate'; gate: Gate }
  | { type: 'draft-notice'; about: Notice['about']; gate: Gate | null }
  | { type: 'settle-notice'; notice: string; release: boolean }
  | { type: 'keep-note'; target: Target | null; text: string; attachments: Attachment[] }
  | { type: 'correct-item'; item: number; part: string | null; place: Place[]; count: number | null }
  | { type: 'undo'; message: string }
  | { type: 'attachment-fetched'; unique: string; hash: string }
  | { type: 'attachment-lost'; unique: string; why: 'too-big' | 'gone' | 'no-room' }
  | { type: 'hand-over' }
  /** Nothing new was said; what follows from an undo is settled. */
  | { type: 'settle' };

/** Why a command was not carried out. Each is told to the person in plain words, with what to do. */
export type Refusal =
  | { why: 'no-job' }
  | { why: 'job-exists' }
  | { why: 'which-item'; candidates: number[] }
  | { why: 'no-such-item'; item: number }
  | { why: 'nothing-named' }
  | { why: 'nothing-out'; supplier: string | null }
  | { why: 'no-such-step'; step: string }
  | { why: 'no-such-check'; check: string }
  | { why: 'no-such-fault'; fault: number }
  | { why: 'no-such-notice' }
  | { why: 'loop'; steps: string[] }
  | { why: 'gate-blocked'; gate: Gate }
  | { why: 'gate-passed'; gate: Gate }
  | { why: 'gates-open'; gates: Gate[] }
  | { why: 'no-owner' }
  | { why: 'nothing-to-undo' };
