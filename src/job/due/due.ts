import type { WorkingCalendar } from '../../plan/calendar.js';
import type { Policy } from '../../shop/policy.js';
import type { Gate } from '../../trade/terms.js';

/** One thing that should be said at an instant. Its id holds what it is about and its step: said twice is seen. */
export type Due = {
  id: string;
  /** When it should go, ms of shop time. */
  at: number;
} & (
  | { kind: 'supplier'; supplier: string; line: string; step: 'check' | 'chase' | 'chase-again' }
  | { kind: 'nudge'; gate: Gate | null; step: `before-${number}` | 'missed' }
  | { kind: 'notice'; owner: string; notice: string }
  | { kind: 'yes-asked'; owner: string }
  | { kind: 'silence'; owner: string }
);

/** What reckoning dues may know besides the job. */
export type DueContext = {
  job: string;
  policy: Policy;
  shopCalendar: WorkingCalendar;
  calendarOf: (person: string) => WorkingCalendar;
  /** Whether the person can be written to in the chat. */
  isLinked: (person: string) => boolean;
  /** When a due was put into a message, or null. */
  spokenOf: (due: string) => number | null;
  /** When the owner was last written to or wrote, or null. */
  ownerHeardAt: (owner: string) => number | null;
};
