import type { Gate, Place, Process } from '../../trade/terms.js';

/** Something the mechanic asks Benchhand to do, as against something seen, done or asked about a part. */
export type Instruction =
  | {
      kind: 'open-job';
      title: string;
      template: 'single' | 'twin' | null;
      owner: string | null;
      /** The owner's. */
      phone: string | null;
      about: string;
      passed: Gate[];
    }
  | { kind: 'put-on-bench'; machine: string }
  | { kind: 'work-done'; item: number | null; part: string | null; place: Place[] }
  | { kind: 'pass-gate'; gate: Gate }
  | { kind: 'undo' }
  /** The last thing said put right by these words. */
  | { kind: 'correct'; words: string }
  | {
      kind: 'add-person';
      role: 'owner' | 'supplier' | 'mechanic';
      name: string;
      processes: Process[];
      phone: string | null;
      machine: string | null;
    }
  /** Somebody's telephone number; without a name, that of the owner of the machine on the bench. */
  | { kind: 'note-phone'; name: string | null; phone: string }
  | { kind: 'invite'; name: string }
  | { kind: 'ask-owner'; items: number[] }
  | { kind: 'want-by'; gate: Gate | null; date: string }
  | { kind: 'find-fault'; text: string }
  | { kind: 'clear-fault'; fault: number | null }
  | { kind: 'do-check'; words: string }
  | { kind: 'show-steps' }
  | { kind: 'add-step'; name: string; after: number | null; before: number | null; hours: number | null }
  | { kind: 'drop-step'; step: number }
  | { kind: 'link-step'; step: number; after: number; linked: boolean }
  | { kind: 'time-step'; step: number; hours: number }
  | { kind: 'fit-step'; step: number }
  | { kind: 'undo-step'; step: number }
  /** Several at once, as at the end of a day. */
  | { kind: 'fit-steps'; steps: number[] }
  | { kind: 'do-checks'; checks: number[] }
  | { kind: 'show-rules' }
  | { kind: 'set-rule'; rule: number; value: string }
  | { kind: 'closed'; who: string | null; from: string; to: string }
  | { kind: 'learn-word'; said: string; part: string }
  | { kind: 'unlearn-word'; said: string }
  | { kind: 'hand-over' }
  | { kind: 'forget'; name: string }
  /** 'What if …?': something late or early by working days, or bought new in place of what was decided. */
  | {
      kind: 'suppose';
      item: number | null;
      part: string | null;
      place: Place[];
      supplier: string | null;
      change: { by: number } | { boughtNew: true };
    }
  | { kind: 'show-timeline' }
  | { kind: 'show-fortnight' }
  | { kind: 'show-checks' }
  | { kind: 'show-jobs' }
  | { kind: 'show-people' }
  | { kind: 'show-list' }
  /** 'Are you well?' */
  | { kind: 'health' }
  | { kind: 'help' };
