import { z } from 'zod';
import { seconds } from '../bot-state.js';
import { badRequest } from '../faults.js';
import { LIMITS } from '../limits.js';
import { chatId, read, whole } from '../params.js';
import type { Handler } from './call.js';

const schema = z.object({ chat_id: chatId, message_id: whole });

/**
 * deleteMessage: the bot's own messages and, in a person's own chat, theirs, for 48 hours.
 * Source: Bot API documentation, deleteMessage.
 */
export const deleteMessage: Handler<'deleteMessage'> = (call) => {
  const params = read(schema, call.params);
  const room = call.bot.rooms.writable(params.chat_id);
  const stored = room.messages.get(params.message_id);
  if (stored === undefined) throw badRequest('message to delete not found');
  const age = seconds(call.now) - stored.message.date;
  const mayDelete = stored.byBot || room.chat.type === 'private';
  if (!mayDelete || age >= LIMITS.deletableSeconds) throw badRequest("message can't be deleted for everyone");
  room.messages.delete(params.message_id);
  call.bot.happenings.emit('chat', {
    type: 'delete',
    token: call.bot.token,
    chatId: room.chat.id,
    at: call.now,
    messageId: params.message_id,
  });
  call.bot.happenings.emit('change');
  return true;
};
