import type { User } from 'grammy/types';
import type { BotState } from './bot-state.js';
import { seat, type ChatSeat } from './chat-seat.js';
import type { Clock } from './dispatch.js';
import { groupSeat, type GroupOptions, type GroupSeat } from './group.js';
import { LIMITS } from './limits.js';
import { setMembership } from './membership.js';
import type { Done } from './writing.js';

/** Who a person is. `started` (default false): they have written to the bot before, so it may write to them. */
export type PersonOptions = {
  id?: number;
  firstName: string;
  lastName?: string;
  username?: string;
  languageCode?: string;
  started?: boolean;
};

/** A person with their own chat with the bot. */
export type Person = ChatSeat & {
  /** Opens a deep link `t.me/<bot>?start=<payload>` and presses Start. */
  open: (startPayload: string) => Promise<Done>;
  /** Blocks the bot: it is told, and may write no more. */
  block: () => Promise<void>;
  unblock: () => Promise<void>;
  /** The person in a group; the bot is put into it when it is first written in. */
  inGroup: (group?: GroupOptions) => GroupSeat;
};

/** Makes a person. `id` is theirs where the options give none. */
export function createPerson(bot: BotState, now: Clock, id: number, options: PersonOptions): Person {
  const user = asUser(id, options);
  const names = user.last_name === undefined ? {} : { last_name: user.last_name };
  const handle = user.username === undefined ? {} : { username: user.username };
  const chat = { id, type: 'private' as const, first_name: user.first_name, ...names, ...handle };
  const room = bot.rooms.ensure(chat, 'not-started');
  if (options.started === true) room.shut = null;
  const own = seat(bot, room, user, now, (at) => {
    if (room.shut === 'blocked') setMembership(bot, room, user, null, at);
    room.shut = null;
  });
  return {
    ...own,
    open: async (startPayload) => {
      if (!LIMITS.startPayload.test(startPayload)) throw new Error(`not a start payload: ${startPayload}`);
      return own.say(`/start ${startPayload}`);
    },
    block: async () => setMembership(bot, room, user, 'blocked', await now()),
    unblock: async () => setMembership(bot, room, user, null, await now()),
    inGroup: (group = {}) => groupSeat(bot, user, now, group),
  };
}

function asUser(id: number, options: PersonOptions): User {
  return {
    id,
    is_bot: false,
    first_name: options.firstName,
    ...(options.lastName === undefined ? {} : { last_name: options.lastName }),
    ...(options.username === undefined ? {} : { username: options.username }),
    ...(options.languageCode === undefined ? {} : { language_code: options.languageCode }),
  };
}
