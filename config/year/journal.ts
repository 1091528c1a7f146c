import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { Struck } from './kills.js';

/** Something a person did in a chat; `update` is the number under which the bot was told. */
export type Act = {
  kind: 'act';
  at: number;
  chat: number;
  update: number;
  how: 'message' | 'edit' | 'press';
  message: number;
  text: string;
  /** A voice note is answered twice: as it comes, and once it was listened to. (Default: false) */
  isVoice?: boolean;
  /** Of an album's pictures not each is answered. (Default: false) */
  isInAlbum?: boolean;
};

/** A text that the bot wrote into a chat. */
export type Written = { kind: 'written'; at: number; chat: number; message: number; text: string };

/** A picture or voice note that the bot put into a chat, with the words under it. */
export type Shown = { kind: 'shown'; at: number; chat: number; message: number; text: string };

/** What happens in a rehearsal, in the order in which it does. Times are Unix milliseconds of shop time. */
export type Happened =
  | Act
  | Written
  | Shown
  /** Something was to be written into a chat, and whoever wrote it was not told whether it was. */
  | { kind: 'unanswered'; at: number; chat: number }
  | { kind: 'woken'; at: number }
  /** An update was told to the bot once more. */
  | { kind: 'told-again'; at: number; update: number }
  | ({ kind: 'killed'; at: number } & Struck);

export type Journal = { happened: readonly Happened[]; note: (entry: Happened) => void };

/** Writes down what is seen in the chats of a rehearsal from now on; what else happens is noted by whoever does it. */
export function keepJournal(rehearsal: Pick<Rehearsal, 'on' | 'updateCount'>): Journal {
  const happened: Happened[] = [];
  const note = (entry: Happened): void => void happened.push(entry);
  // An act is shown before the bot is told of it: its update is the next one.
  const act = (entry: Omit<Act, 'kind' | 'update'>): void =>
    note({ kind: 'act', update: rehearsal.updateCount + 1, ...entry });
  rehearsal.on('chat', (event) => {
    const { at, chatId: chat } = event;
    if (event.type === 'press') act({ at, chat, how: 'press', message: event.messageId, text: event.text });
    if (event.type !== 'message' && event.type !== 'edit') return;
    const { message_id: message, text, caption } = event.message;
    const isVoice = event.message.voice !== undefined;
    const isInAlbum = event.message.media_group_id !== undefined;
    if (!event.byBot)
      act({ at, chat, how: event.type, message, text: text ?? caption ?? '', isVoice, isInAlbum });
    else if (event.type === 'message' && text !== undefined)
      note({ kind: 'written', at, chat, message, text });
    else if (event.type === 'message') note({ kind: 'shown', at, chat, message, text: caption ?? '' });
  });
  rehearsal.on('call', ({ method, params, at, outcome, errorCode }) => {
    const isOpen = outcome === 'lost' || (errorCode !== null && errorCode >= 500);
    if (method === 'sendMessage' && isOpen) note({ kind: 'unanswered', at, chat: Number(params['chat_id']) });
  });
  return { happened, note };
}
