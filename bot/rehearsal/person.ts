import type { ChatMember, User } from 'grammy/types';
import { botAsUser, notify, seconds, type BotState } from './bot-state.js';
import { seat, type ChatSeat, type Done } from './chat-seat.js';
import type { Clock } from './dispatch.js';
import { LIMITS } from './limits.js';

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
};

/** Makes a person. `id` is theirs where the options give none. */
export function createPerson(bot: BotState, now: Clock, id: number, options: PersonOptions): Person {
  const user = asUser(id, options);
  const names = user.last_name === undefined ? {} : { last_name: user.last_name };
  const handle = user.username === undefined ? {} : { username: user.username };
  const chat = { id, type: 'private' as const, first_name: user.first_name, ...names, ...handle };
  const room = bot.rooms.ensure(chat, options.started === true ? null : 'not-started');
  const own = seat(bot, room, user, now, (at) => {
    if (room.shut === 'blocked') turn(false, at);
    room.shut = null;
  });
  const turn = (blocked: boolean, at: number): void => {
    room.shut = blocked ? 'blocked' : null;
    const me = botAsUser(bot);
    const free: ChatMember = { status: 'member', user: me };
    const shut: ChatMember = { status: 'kicked', user: me, until_date: 0 };
    const change = blocked
      ? { old_chat_member: free, new_chat_member: shut }
      : { old_chat_member: shut, new_chat_member: free };
    notify(bot, { my_chat_member: { chat, from: user, date: seconds(at), ...change } }, at);
  };
  return {
    ...own,
    open: (startPayload) => {
      if (!LIMITS.startPayload.test(startPayload)) throw new Error(`not a start payload: ${startPayload}`);
      return own.say(`/start ${startPayload}`);
    },
    block: async () => turn(true, await now()),
    unblock: async () => turn(false, await now()),
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
