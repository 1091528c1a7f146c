import { z } from 'zod';
import { badRequest } from '../faults.js';
import { LIMITS } from '../limits.js';
import { chatId, read, structured } from '../params.js';
import { characters } from '../text.js';
import type { Handler } from './call.js';

const menuButton = z.union([
  z.object({ type: z.enum(['commands', 'default']) }),
  z.object({ type: z.literal('web_app'), text: z.string(), web_app: z.object({ url: z.string() }) }),
]);
const menuSchema = z.object({
  chat_id: chatId.optional(),
  menu_button: structured(menuButton).default({ type: 'default' }),
});
const descriptionSchema = z.object({
  description: z.string().default(''),
  language_code: z.string().default(''),
});

/** setChatMenuButton: of one private chat, or the default of all. */
export const setChatMenuButton: Handler<'setChatMenuButton'> = (call) => {
  const params = read(menuSchema, call.params);
  const room = params.chat_id === undefined ? null : call.bot.rooms.known(params.chat_id);
  call.bot.menuButtons.set(room?.chat.id ?? null, params.menu_button);
  return true;
};

/** setMyDescription: what an empty chat shows, up to 512 characters. */
export const setMyDescription: Handler<'setMyDescription'> = (call) => {
  const params = read(descriptionSchema, call.params);
  if (characters(params.description) > LIMITS.description) throw badRequest('description is too long');
  call.bot.descriptions.set(params.language_code, params.description);
  return true;
};
