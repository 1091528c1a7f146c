import type { MenuButton, User, UserFromGetMe } from 'grammy/types';
import type { BenchMessage, UpdateBody } from './bench-message.js';
import type { CommandMenus } from './command-menus.js';
import { createFileStore, type FileStore } from './files.js';
import type { Happenings } from './happenings.js';
import { createRooms, type Room, type Rooms } from './rooms.js';
import { createUpdateQueue, type UpdateQueue } from './updates.js';

/** A pressed button that waits for its answer. */
export type Press = {
  id: string;
  person: User;
  chatId: number;
  at: number;
  answer: { text: string; alert: boolean } | null;
};

/** Everything that the server knows of one bot. */
export type BotState = {
  token: string;
  me: UserFromGetMe;
  rooms: Rooms;
  updates: UpdateQueue;
  files: FileStore;
  presses: Map<string, Press>;
  commands: CommandMenus;
  menuButtons: Map<number | null, MenuButton>;
  descriptions: Map<string, string>;
  happenings: Happenings;
  nextNumber: () => number;
};

/** Which bot to make. Ids and numbers are given, so that a run repeats itself. */
export type BotOptions = { token: string; username: string; name: string; firstUpdateId: number };

/** Makes the state of a bot that nobody has written to yet. */
export function createBotState(options: BotOptions, happenings: Happenings): BotState {
  let number = 0;
  return {
    token: options.token,
    me: {
      id: Number(options.token.split(':')[0]),
      is_bot: true,
      first_name: options.name,
      username: options.username,
      can_join_groups: true,
      can_read_all_group_messages: true,
      supports_inline_queries: false,
      can_connect_to_business: false,
      has_main_web_app: false,
      has_topics_enabled: false,
      allows_users_to_create_topics: false,
      can_manage_bots: false,
      supports_join_request_queries: false,
    },
    rooms: createRooms(),
    updates: createUpdateQueue(options.firstUpdateId, () => happenings.emit('change')),
    files: createFileStore(),
    presses: new Map(),
    commands: new Map(),
    menuButtons: new Map(),
    descriptions: new Map(),
    happenings,
    nextNumber: () => {
      number += 1;
      return number;
    },
  };
}

/** Unix seconds of a clock in milliseconds: the Bot API's dates. */
export const seconds = (nowMs: number): number => Math.floor(nowMs / 1000);

/** The bot as it stands in a message's `from`: without what only getMe tells. */
export function botAsUser(bot: BotState): User {
  const { id, is_bot, first_name, username } = bot.me;
  return { id, is_bot, first_name, username };
}

/** Who writes a message, and when (Unix milliseconds). */
export type Writer = { from: User; byBot: boolean; now: number };

/** Stores a message under the room's next id and tells whoever listens. */
export function post<C extends Partial<BenchMessage>>(
  bot: BotState,
  room: Room,
  writer: Writer,
  content: C,
): BenchMessage & C {
  room.lastMessageId += 1;
  const message: BenchMessage & C = {
    message_id: room.lastMessageId,
    from: writer.from,
    chat: room.chat,
    date: seconds(writer.now),
    ...content,
  };
  room.messages.set(message.message_id, { message, byBot: writer.byBot, edits: [] });
  tell(bot, room, writer, 'message', message);
  return message;
}

/** Puts a new version of a message in the place of the old one, which is kept among its edits. */
export function revise(bot: BotState, room: Room, writer: Writer, message: BenchMessage): void {
  const stored = room.messages.get(message.message_id);
  if (stored === undefined) throw new Error(`no message ${message.message_id} to revise`);
  const before = stored.message.text ?? stored.message.caption ?? '';
  stored.edits.push({ date: stored.message.edit_date ?? stored.message.date, text: before });
  stored.message = message;
  tell(bot, room, writer, 'edit', message);
}

function tell(
  bot: BotState,
  room: Room,
  writer: Writer,
  type: 'message' | 'edit',
  message: BenchMessage,
): void {
  const { byBot, now } = writer;
  const chatId = room.chat.id;
  bot.happenings.emit('chat', { type, token: bot.token, chatId, at: now, byBot, message });
  bot.happenings.emit('change');
}

/** Queues an update for the bot; null where it did not ask for this kind. */
export function notify(bot: BotState, body: UpdateBody, now: number): number | null {
  return bot.updates.push(body, seconds(now))?.update_id ?? null;
}
