import type { ChatMember, User } from 'grammy/types';
import { botAsUser, notify, seconds, type BotState } from './bot-state.js';
import type { Room, Shut } from './rooms.js';

/** The bot's status in a chat as the Bot API names it. */
type Status = 'member' | 'left' | 'kicked';

/** Changes whether the bot may write in a room, and tells it (my_chat_member). `by` is who did it. */
export function setMembership(bot: BotState, room: Room, by: User, shut: Shut | null, at: number): void {
  const before = memberAs(bot, statusOf(room.shut));
  room.shut = shut;
  const after = memberAs(bot, statusOf(shut));
  const change = { old_chat_member: before, new_chat_member: after };
  notify(bot, { my_chat_member: { chat: room.chat, from: by, date: seconds(at), ...change } }, at);
}

function statusOf(shut: Shut | null): Status {
  switch (shut) {
    case null:
    case 'not-started':
      return 'member';
    case 'blocked':
    case 'kicked':
      return 'kicked';
    case 'left':
      return 'left';
  }
}

function memberAs(bot: BotState, status: Status): ChatMember {
  const user = botAsUser(bot);
  return status === 'kicked' ? { status, user, until_date: 0 } : { status, user };
}
