import type { Matter } from '../contact/events.js';
import type { ShopWords } from '../hearing/speech/shop-words.js';
import type { Doubt } from '../hearing/sureness/doubts.js';
import type { Attachment } from '../job/events.js';
import type { Role } from '../shop/events.js';
import type { Answer, Action } from '../wording/answer.js';
import type { Heard } from './heard.js';

/** Who writes: known people with their parts in the shop, or a stranger. One person can be two of these. */
export type Identity =
  { kind: 'person'; person: string; roles: Role[]; name: string; speaksAs: Role } | { kind: 'stranger' };

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
  /** Stretches of the text that a recogniser was not sure of. (Default: none) */
  doubts?: readonly Doubt[];
  attachments: Attachment[];
  /** The message of this chat that it answers. */
  replyTo: number | null;
  /** Whether it replaces what the same message said before. */
  edited: boolean;
  /** The album a picture belongs to. */
  album: string | null;
  forwarded: boolean;
};

/** What people say and press, each answered. */
export type Conversation = {
  /** A mechanic's message. */
  bench: (message: Incoming) => Promise<Answer>;
  owner: (message: Incoming) => Promise<Answer>;
  supplier: (message: Incoming) => Promise<Answer>;
  /** A button pressed by someone known. */
  press: (pressed: {
    key: string;
    person: string;
    chatId: number;
    at: number;
    action: Action;
  }) => Promise<Answer>;
  /** A deep link's secret; a stranger or someone known takes an invitation. */
  takeInvitation: (taken: {
    key: string;
    chatId: number;
    name: string;
    secret: string;
    at: number;
  }) => Promise<Answer>;
};

/** The dealings with one update. */
export type Visit = Conversation & {
  /** Who it came from. */
  who: () => Promise<Identity>;
  /** What they call themselves in the chat: it is taken for their name where the shop has none. */
  calledInChat: (person: string, name: string) => Promise<void>;
  /** An answer may be said while what it leaves behind is still being kept. This waits for that; the update is done then. */
  kept: () => Promise<void>;
};

/** The use cases that the bot and the workers share. */
export type Desk = Conversation & {
  /**
   * Opens the dealings with one update of a chat: for those each thing in the record is read once. `text` is what was
   * written, so that it can be read while the record is asked.
   */
  visit: (chatId: number, key: string, text?: string) => Visit;
  /** Who this chat belongs to. */
  who: (chatId: number) => Promise<Identity>;
  /** Lets in the mechanics whose chats the settings name. */
  letIn: (chatIds: readonly number[], at: number) => Promise<void>;
  /** Puts into motion all that is due; gives how many messages were intended. */
  wake: (now: number) => Promise<number>;
  /** Asks again for what was to be done and never was; gives for how many things. */
  recover: (now: number) => Promise<number>;
  /** The day's back-up, where it is due. */
  keepBackUp: (now: number) => Promise<'kept' | 'failed' | 'not-due'>;
  /** The words of an intended message as things stand now, with the attempt recorded; or nothing to send any more. */
  prepareSend: (contact: string, message: string, now: number) => Promise<Prepared>;
  sent: (contact: string, message: string, sent: Sent, now: number) => Promise<void>;
  /** It did not go now, and will be tried again. */
  postponed: (
    contact: string,
    message: string,
    why: 'turned-away' | 'no-answer',
    attempt: string,
    now: number,
  ) => Promise<void>;
  failed: (contact: string, message: string, why: string, now: number) => Promise<void>;
  /** What became of a picture or voice note that was sent for. */
  fetched: (job: string, unique: string, result: Fetched, now: number) => Promise<void>;
  /** The shop's own names and words, for a recogniser to expect. */
  shopWords: () => Promise<ShopWords>;
  /** A voice note's words as a recogniser heard them, answered like any message; null: nothing could be made out. */
  transcribed: (key: string, heard: Heard | null) => Promise<Transcribed | null>;
  /** An update that failed three times is kept raw, and the mechanics are told. */
  poisoned: (key: string, raw: unknown, now: number) => Promise<void>;
};

/** The answer to a voice note, for the chat it came from; null where it was answered before. */
export type Transcribed = { chatId: number; replyTo: number; answer: Answer };

export type Fetched = { hash: string } | { lost: 'too-big' | 'gone' | 'no-room' };

export type Sent = { chatMessage: number; about: Matter[]; perhapsRepeated: boolean; answer: Answer };

export type Prepared =
  | {
      outcome: 'send';
      chatId: number;
      answer: Answer;
      about: Matter[];
      perhapsRepeated: boolean;
      attempt: string;
    }
  | { outcome: 'drop' }
  | { outcome: 'already-sent' };
