import type { MessageOrigin, User } from 'grammy/types';
import type { BenchMessage } from './bench-message.js';
import { notify, post, revise, seconds, type BotState } from './bot-state.js';
import { findEntities } from './entities.js';
import { quoted } from './methods/replies.js';
import type { Room } from './rooms.js';
import type { Formatted } from './text.js';
import { without } from './without.js';

/** A person at work in a chat, at an instant (Unix milliseconds). */
export type Hand = { bot: BotState; room: Room; user: User; at: number };

/** What a message a person writes may have beside its content. */
export type WritingOptions = {
  /** The message it answers. */
  replyTo?: number;
  /** Entities of the text or caption; default those that a chat finds by itself. */
  entities?: NonNullable<Formatted['entities']>;
  /** Whose message is passed on: the name of somebody who hides their account, or a user. */
  forwardFrom?: string | User;
};

/** What came of something that a person did: the message, and the update (null where the bot gets none). */
export type Done = { messageId: number; updateId: number | null };

/** Stores what a person sends, with reply and origin, and queues it for the bot. */
export function write(hand: Hand, content: Partial<BenchMessage>, options: WritingOptions = {}): Done {
  const { bot, room, user, at } = hand;
  const message = post(bot, room, writer(hand), {
    ...content,
    ...reply(room, options.replyTo),
    ...origin(user, options.forwardFrom, seconds(at)),
  });
  return { messageId: message.message_id, updateId: hears(room) ? notify(bot, { message }, at) : null };
}

/** Puts a new text or caption in the place of an old one of the person's own. */
export function rewrite(hand: Hand, messageId: number, text: string): Done {
  const { bot, room, user, at } = hand;
  const before = room.messages.get(messageId)?.message;
  if (before === undefined || before.from.id !== user.id)
    throw new Error(`no message ${messageId} of theirs to edit`);
  const rest = without(before, 'text', 'entities', 'caption', 'caption_entities');
  const content = before.text === undefined ? caption(text, {}) : formatted(text, {});
  const after = { ...rest, ...content, edit_date: seconds(at) };
  revise(bot, room, writer(hand), after);
  return { messageId, updateId: hears(room) ? notify(bot, { edited_message: after }, at) : null };
}

/** A text with its entities. */
export function formatted(text: string, options: WritingOptions): Formatted {
  const entities = options.entities ?? findEntities(text);
  return entities.length === 0 ? { text } : { text, entities };
}

/** A caption with its entities; nothing where it is empty. */
export function caption(
  text: string,
  options: WritingOptions,
): Pick<BenchMessage, 'caption' | 'caption_entities'> {
  if (text === '') return {};
  const { entities } = formatted(text, options);
  return entities === undefined ? { caption: text } : { caption: text, caption_entities: entities };
}

/** A bot hears nothing of a group that it is no longer in. */
export const hears = (room: Room): boolean => room.shut !== 'left' && room.shut !== 'kicked';

const writer = ({ user, at }: Hand) => ({ from: user, byBot: false, now: at });

function reply(room: Room, replyTo: number | undefined): Pick<BenchMessage, 'reply_to_message'> {
  if (replyTo === undefined) return {};
  const stored = room.messages.get(replyTo);
  if (stored === undefined) throw new Error(`no message ${replyTo} to reply to`);
  return { reply_to_message: quoted(stored.message) };
}

function origin(
  user: User,
  from: string | User | undefined,
  date: number,
): { forward_origin?: MessageOrigin } {
  if (from === undefined) return {};
  return typeof from === 'string'
    ? { forward_origin: { type: 'hidden_user', sender_user_name: from, date } }
    : { forward_origin: { type: 'user', sender_user: from.id === user.id ? user : from, date } };
}
