import { z } from 'zod';
import { post } from '../bot-state.js';
import { read, words } from '../params.js';
import { messageText } from '../text.js';
import { writerOf, type Handler } from './call.js';
import { replyTo } from './replies.js';
import { entitiesParam, sendingParams, withKeyboard } from './sending.js';

const schema = z.object({ ...sendingParams, text: words.default(''), entities: entitiesParam.optional() });

/** sendMessage: text with entities, an inline keyboard, a reply. */
export const sendMessage: Handler<'sendMessage'> = (call) => {
  const params = read(schema, call.params);
  const room = call.bot.rooms.writable(params.chat_id);
  return post(call.bot, room, writerOf(call), {
    ...messageText(params.text, params.parse_mode, params.entities),
    ...withKeyboard(params.reply_markup),
    ...replyTo(room, params.reply_parameters),
  });
};
