import { z } from 'zod';
import { badRequest } from '../faults.js';
import { LIMITS } from '../limits.js';
import { flag, read, words } from '../params.js';
import { characters } from '../text.js';
import type { Handler } from './call.js';

const schema = z.object({
  callback_query_id: words,
  text: words.default(''),
  show_alert: flag.default(false),
});

/** answerCallbackQuery: stops the button's spinner; may show up to 200 characters. */
export const answerCallbackQuery: Handler<'answerCallbackQuery'> = (call) => {
  const params = read(schema, call.params);
  const press = call.bot.presses.get(params.callback_query_id);
  const tooOld = press !== undefined && call.now - press.at > LIMITS.callbackAnswerSeconds * 1000;
  if (press === undefined || tooOld)
    throw badRequest('query is too old and response timeout expired or query ID is invalid');
  if (characters(params.text) > LIMITS.callbackAnswer) throw badRequest('MESSAGE_TOO_LONG');
  press.answer = { text: params.text, alert: params.show_alert };
  call.bot.happenings.emit('chat', {
    type: 'toast',
    token: call.bot.token,
    chatId: press.chatId,
    at: call.now,
    personId: press.person.id,
    text: params.text,
    alert: params.show_alert,
  });
  call.bot.happenings.emit('change');
  return true;
};
