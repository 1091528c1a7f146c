import type { Question, Reading } from '../hearing/reading.js';
import type { Attachment } from '../job/events.js';
import type { JobState } from '../job/state.js';
import type { Gate } from '../trade/terms.js';

/** What pressing a button does. Kept in the record under a short token; who may press is looked at again at each press. */
export type Action =
  | { do: 'undo'; job: string; message: string }
  | { do: 'explain-change'; job: string; message: string }
  /** Takes a reading as corrected or completed by the button, instead of what the message was read as before, if it was. */
  | {
      do: 'apply';
      job: string;
      message: string;
      messageId: number;
      reading: Reading;
      attachments: Attachment[];
      instead: boolean;
    }
  | { do: 'put-on-bench'; job: string }
  | { do: 'answer-more'; job: string | null; question: Question; item: number | null }
  | { do: 'pass-gate'; job: string; gate: Gate }
  | { do: 'release-notice'; job: string; notice: string }
  | { do: 'drop-notice'; job: string; notice: string }
  | { do: 'ask-owner'; job: string; items: number[] }
  | { do: 'owner-answer'; job: string; items: number[]; outcome: 'yes' | 'no' | 'talk' }
  | { do: 'supplier-says'; lines: { job: string; line: string }[]; says: 'on-time' | 'ready' | 'late' }
  | { do: 'work-done'; job: string; item: number }
  | { do: 'fit-step'; job: string; step: string }
  | { do: 'do-check'; job: string; check: string }
  | { do: 'clear-fault'; job: string; fault: number }
  | { do: 'show-photos'; job: string; item: number }
  | { do: 'show-timeline'; job: string }
  | { do: 'invite'; person: string; role: 'mechanic' | 'owner' | 'supplier' }
  | { do: 'settle-guest'; invitation: string; welcome: boolean }
  | { do: 'forget'; person: string }
  | { do: 'unlearn'; said: string };

export type Button = { label: string; action: Action };

/** A job as wording is handed it. */
export type Job = { id: string; state: JobState };

/** The jobs a message was about, the message itself by its id in the record, and the item it spoke of last. */
export type Thread = { jobs: string[]; message: string; item: number | null };

/** A run of the text that is shown in bold; the rest is plain. People's words are never read as mark-up. */
export type Passage = string | { bold: string };

/** One reply or message: what a person reads, the buttons beneath it, and pictures or voice notes by content hash. */
export type Answer = {
  /** What it is about, so that a reply to it is understood. */
  thread?: Thread;
  text: readonly Passage[];
  buttons: readonly (readonly Button[])[];
  photos?: readonly { hash: string; caption: string }[];
  voices?: readonly string[];
  /** Holds what must lie nowhere: a link that lets somebody in, a name that was forgotten. It is not kept with its update. */
  unkept?: true;
};

/** An answer that is best left unsaid: the bot sends nothing. */
export const NOTHING_TO_SAY: Answer = { text: [], buttons: [] };

export function plain(text: string, buttons: Answer['buttons'] = []): Answer {
  return { text: [text], buttons };
}

/** The text of an answer without its emphasis. */
export function textOf(answer: Answer): string {
  return answer.text.map((passage) => (typeof passage === 'string' ? passage : passage.bold)).join('');
}

/** What wording may know besides the state: today, and what ids stand for. */
export type Speaker = {
  today: string;
  zone: string;
  currency: string;
  /** The person's name; for someone forgotten, a plain word. */
  name: (person: string) => string;
  /** Words kept aside, by id; empty where they were forgotten. */
  said: (text: string) => string;
  phone: (person: string) => string | null;
};
