import type { Chat, Message, Update, User } from 'grammy/types';

/** The chats that the rehearsal knows: a person's own with the bot, and groups. */
export type BenchChat = Chat.PrivateChat | Chat.GroupChat;

/** A message of the rehearsal: the Bot API's, with sender and kind of chat always there. */
export type BenchMessage = Message & { chat: BenchChat; from: User };

/** An earlier form of a message, kept as it is edited. */
export type Edit = { date: number; text: string };

/** A message as stored: with what it was before each edit, and the album parts and replies inside `message`. */
export type StoredMessage = { message: BenchMessage; byBot: boolean; edits: Edit[] };

/** Everything of an update but its number. */
export type UpdateBody = Omit<Update, 'update_id'>;

/** The kinds of update that there are. */
export type UpdateKind = keyof UpdateBody;
