import { z } from 'zod';
import type { MessageEntity } from 'grammy/types';
import { entitySchema } from '../entities.js';
import { inlineOf, markupParam, type Keyboard } from '../keyboard.js';
import { chatId, structured, words } from '../params.js';
import { replyParam } from './replies.js';

/** A list of entities as a parameter. */
export const entitiesParam = structured(z.array(entitySchema));

/** Parameters that every sending method has. */
export const sendingParams = {
  chat_id: chatId,
  parse_mode: z.string().optional(),
  reply_parameters: replyParam.optional(),
  reply_markup: markupParam.optional(),
};

/** Parameters of methods that send something with a caption. */
export const captionParams = { caption: words.default(''), caption_entities: entitiesParam.optional() };

/** The keyboard as a message carries it: absent where there is none. */
export function withKeyboard(markup: z.output<typeof markupParam> | undefined): { reply_markup?: Keyboard } {
  const keyboard = inlineOf(markup);
  return keyboard === null ? {} : { reply_markup: keyboard };
}

/** A caption as a message carries it: absent where it is empty. */
export function asCaption(formatted: { text: string; entities?: MessageEntity[] }): {
  caption?: string;
  caption_entities?: MessageEntity[];
} {
  if (formatted.text === '') return {};
  const { text: caption, entities } = formatted;
  return entities === undefined ? { caption } : { caption, caption_entities: entities };
}
