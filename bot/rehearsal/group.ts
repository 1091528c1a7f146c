import type { User } from 'grammy/types';
import { botAsUser, type BotState } from './bot-state.js';
import { seat, type ChatSeat } from './chat-seat.js';
import type { Clock } from './dispatch.js';
import { setMembership } from './membership.js';
import { write } from './writing.js';

/** Which group: people who give the same id meet in it. Default -5001, "Bench group". */
export type GroupOptions = { id?: number; title?: string };

/** A person's place in a group. The bot's privacy mode is off here: it hears whatever is written. */
export type GroupSeat = ChatSeat & {
  /** Puts the bot into the group, again where it left or was put out. */
  invite: () => Promise<void>;
  /** Puts the bot out of the group. */
  putOut: () => Promise<void>;
};

/** Seats a person in a group. */
export function groupSeat(bot: BotState, user: User, now: Clock, group: GroupOptions): GroupSeat {
  const id = group.id ?? -5001;
  const room = bot.rooms.ensure({ id, type: 'group', title: group.title ?? 'Bench group' }, 'left');
  const invite = (at: number): void => {
    setMembership(bot, room, user, null, at);
    write({ bot, room, user, at }, { new_chat_members: [botAsUser(bot)] });
  };
  return {
    ...seat(bot, room, user, now, (at) => {
      if (room.lastMessageId === 0) invite(at);
    }),
    invite: async () => invite(await now()),
    putOut: async () => setMembership(bot, room, user, 'kicked', await now()),
  };
}
