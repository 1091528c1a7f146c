import { badRequest, forbidden } from './faults.js';
import type { BenchChat, StoredMessage } from './bench-message.js';

/** Why the bot may not write in a room. */
export type Shut = 'not-started' | 'blocked' | 'left' | 'kicked';

/** One chat with its messages; message ids run from 1 in each chat ("unique inside this chat"). */
export type Room = {
  chat: BenchChat;
  shut: Shut | null;
  messages: Map<number, StoredMessage>;
  lastMessageId: number;
};

/** The chats of one bot, by id. */
export type Rooms = {
  /** The room of this chat, made if it is new. */
  ensure: (chat: BenchChat, shut: Shut | null) => Room;
  /** The room with this id, or null. */
  find: (chatId: number) => Room | null;
  /** The room if the bot knows the chat, though it may not write there; throws the documented 400 otherwise. */
  known: (chatId: number | string) => Room;
  /** The room if the bot may write there; throws the documented 400 or 403 otherwise. */
  writable: (chatId: number | string) => Room;
};

/** Makes an empty set of rooms. */
export function createRooms(): Rooms {
  const rooms = new Map<number, Room>();
  const find = (chatId: number): Room | null => rooms.get(chatId) ?? null;
  const known = (chatId: number | string): Room => {
    const room = find(Number(chatId));
    if (room === null || room.shut === 'not-started') throw badRequest('chat not found');
    return room;
  };
  return {
    find,
    known,
    ensure: (chat, shut) => {
      const room = rooms.get(chat.id) ?? { chat, shut, messages: new Map(), lastMessageId: 0 };
      rooms.set(chat.id, room);
      return room;
    },
    writable: (chatId) => {
      const room = known(chatId);
      refuseShut(room);
      return room;
    },
  };
}

/** Throws what the Bot API answers when the bot may not write in this room. */
function refuseShut(room: Room): void {
  switch (room.shut) {
    case null:
      return;
    case 'not-started':
      throw badRequest('chat not found');
    case 'blocked':
      throw forbidden('bot was blocked by the user');
    case 'left':
      throw forbidden('bot is not a member of the group chat');
    case 'kicked':
      throw forbidden('bot was kicked from the group chat');
  }
}
