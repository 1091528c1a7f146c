import type { Attachment } from '../job/events.js';
import type { Role } from '../shop/events.js';
import type { Answer, Action } from '../wording/answer.js';

/** Who writes: known people with their parts in the shop, or a stranger. One person can be two of these. */
export type Identity =
  | { kind: 'person'; person: string; roles: Role[]; name: string }
  | { kind: 'stranger' };

/** A message as it came from a chat, whoever wrote it. */
export type Incoming = {
  /** The update's own key: the same update twice is answered from what was recorded. */
  key: string;
  person: string;
  chatId: number;
  messageId: number;
  /** Text or caption; empty for a bare photo or voice note. */
  text: string;
  /** When it was written, ms of shop time. */
  at: number;
  source: 'typed' | 'spoken' | 'caption';
  attachments: Attachment[];
  /** The message of this chat that it answers. */
  replyTo: number | null;
  /** Whether it replaces what the same message said before. */
  edited: boolean;
  /** The album a picture belongs to. */
  album: string | null;
  forwarded: boolean;
};

/** The use cases that the bot and the workers share. */
export type Desk = {
  /** Who this chat belongs to. */
  who: (chatId: number) => Promise<Identity>;
  /** A mechanic's message. */
  bench: (message: Incoming) => Promise<Answer | null>;
  owner: (message: Incoming) => Promise<Answer>;
  supplier: (message: Incoming) => Promise<Answer>;
  /** A button pressed by someone known. */
  press: (press: { key: string; person: string; at: number; action: Action }) => Promise<Answer>;
  /** A deep link's secret; a stranger or someone known takes an invitation. */
  takeInvitation: (taken: { key: string; chatId: number; name: string; secret: string; at: number }) => Promise<Answer>;
  /** Puts into motion all that is due; gives how many messages were intended. */
  wake: (now: number) => Promise<number>;
  /** The words of an intended message as things stand now; null when nothing of it holds any more, which is recorded. */
  prepareSend: (contact: string, message: string, now: number) => Promise<Prepared>;
  sent: (contact: string, message: string, chatMessage: number, now: number) => Promise<void>;
  failed: (contact: string, message: string, why: string, now: number) => Promise<void>;
  /** What to fetch, and what became of it. */
  fetched: (job: string, unique: string, result: { hash: string } | { lost: 'too-big' | 'gone' | 'no-room' }, now: number) => Promise<void>;
  /** What a recogniser made of a voice note; null: nothing could be heard. */
  transcribed: (key: string, heard: string | null, now: number) => Promise<void>;
};

export type Prepared =
  | { outcome: 'send'; chatId: number; answer: Answer; perhapsRepeated: boolean }
  | { outcome: 'drop' }
  | { outcome: 'already-sent' };
