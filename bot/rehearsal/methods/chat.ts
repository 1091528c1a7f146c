import { z } from 'zod';
import { botAsUser } from '../bot-state.js';
import { badRequest } from '../faults.js';
import { setMembership } from '../membership.js';
import { chatId, read } from '../params.js';
import type { Handler } from './call.js';

const schema = z.object({ chat_id: chatId });
const ACTIONS = [
  'typing',
  'upload_photo',
  'record_video',
  'upload_video',
  'record_voice',
  'upload_voice',
  'upload_document',
  'choose_sticker',
  'find_location',
  'record_video_note',
  'upload_video_note',
] as const;

/** What getChat must say and nobody here sets. Source of the shape: `grammy/types`, ChatFullInfo. */
const FULL_INFO = {
  accent_color_id: 0,
  max_reaction_count: 11,
  accepted_gift_types: {
    unlimited_gifts: true,
    limited_gifts: true,
    unique_gifts: true,
    premium_subscription: true,
    gifts_from_channels: true,
  },
};

/** getChat: who a chat is with. */
export const getChat: Handler<'getChat'> = (call) => {
  const { chat } = call.bot.rooms.known(read(schema, call.params).chat_id);
  return chat.type === 'private' ? { ...chat, ...FULL_INFO } : { ...chat, ...FULL_INFO };
};

/** leaveChat: out of a group; the bot is told of it as of any change of its membership. */
export const leaveChat: Handler<'leaveChat'> = (call) => {
  const room = call.bot.rooms.writable(read(schema, call.params).chat_id);
  if (room.chat.type === 'private') throw badRequest("chat member status can't be changed in private chats");
  setMembership(call.bot, room, botAsUser(call.bot), 'left', call.now);
  return true;
};

/** sendChatAction: "typing …" and the like, seen for some seconds. */
export const sendChatAction: Handler<'sendChatAction'> = (call) => {
  const params = read(schema.extend({ action: z.string() }), call.params);
  const room = call.bot.rooms.writable(params.chat_id);
  const action = ACTIONS.find((known) => known === params.action);
  if (action === undefined) throw badRequest('wrong parameter action in request');
  call.bot.happenings.emit('chat', {
    type: 'action',
    token: call.bot.token,
    chatId: room.chat.id,
    at: call.now,
    action,
  });
  return true;
};
