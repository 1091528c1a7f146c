import { isDeepStrictEqual } from 'node:util';
import { z } from 'zod';
import type { BenchMessage } from '../bench-message.js';
import { revise, seconds } from '../bot-state.js';
import { badRequest } from '../faults.js';
import { inlineMarkupParam } from '../keyboard.js';
import { chatId, read, whole, words } from '../params.js';
import type { Room } from '../rooms.js';
import { captionText, messageText } from '../text.js';
import { without } from '../without.js';
import { writerOf, type Call, type Handler } from './call.js';
import { asCaption, captionParams, entitiesParam, withKeyboard } from './sending.js';

const target = { chat_id: chatId, message_id: whole, reply_markup: inlineMarkupParam.optional() };
const parseMode = { parse_mode: z.string().optional() };
const textSchema = z.object({
  ...target,
  ...parseMode,
  text: words.default(''),
  entities: entitiesParam.optional(),
});
const captionSchema = z.object({ ...target, ...parseMode, ...captionParams });
const markupSchema = z.object(target);

/** editMessageText: the whole text anew; a keyboard that is not given again goes away. */
export const editMessageText: Handler<'editMessageText'> = (call) => {
  const params = read(textSchema, call.params);
  const { room, message } = findOwn(call, params);
  if (message.text === undefined) throw badRequest('there is no text in the message to edit');
  const rest = without(message, 'text', 'entities', 'reply_markup');
  const content = messageText(params.text, params.parse_mode, params.entities);
  return replace(call, room, message, { ...rest, ...content, ...withKeyboard(params.reply_markup) });
};

/** editMessageCaption: the caption of a photo, voice note or document. */
export const editMessageCaption: Handler<'editMessageCaption'> = (call) => {
  const params = read(captionSchema, call.params);
  const { room, message } = findOwn(call, params);
  if (message.text !== undefined) throw badRequest('there is no caption in the message to edit');
  const rest = without(message, 'caption', 'caption_entities', 'reply_markup');
  const content = asCaption(captionText(params.caption, params.parse_mode, params.caption_entities));
  return replace(call, room, message, { ...rest, ...content, ...withKeyboard(params.reply_markup) });
};

/** editMessageReplyMarkup: the keyboard alone. */
export const editMessageReplyMarkup: Handler<'editMessageReplyMarkup'> = (call) => {
  const params = read(markupSchema, call.params);
  const { room, message } = findOwn(call, params);
  const rest = without(message, 'reply_markup');
  return replace(call, room, message, { ...rest, ...withKeyboard(params.reply_markup) });
};

function findOwn(
  call: Call,
  params: { chat_id: number | string; message_id: number },
): { room: Room; message: BenchMessage } {
  const room = call.bot.rooms.writable(params.chat_id);
  const stored = room.messages.get(params.message_id);
  if (stored === undefined) throw badRequest('message to edit not found');
  if (!stored.byBot) throw badRequest("message can't be edited");
  return { room, message: stored.message };
}

function replace<M extends BenchMessage>(
  call: Call,
  room: Room,
  before: BenchMessage,
  after: M,
): M & { edit_date: number } {
  if (isDeepStrictEqual(without(before, 'edit_date'), without(after, 'edit_date'))) {
    throw badRequest(
      'message is not modified: specified new message content and reply markup are exactly the same ' +
        'as a current content and reply markup of the message',
    );
  }
  const edited = { ...after, edit_date: seconds(call.now) };
  revise(call.bot, room, writerOf(call), edited);
  return edited;
}
