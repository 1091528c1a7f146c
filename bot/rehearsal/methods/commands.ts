import { z } from 'zod';
import type { BotCommandScope } from 'grammy/types';
import { menuKey } from '../command-menus.js';
import { badRequest } from '../faults.js';
import { LIMITS } from '../limits.js';
import { chatId, read, structured, whole } from '../params.js';
import { characters } from '../text.js';
import type { Call, Handler } from './call.js';

const scope = z.union([
  z.object({
    type: z.enum(['default', 'all_private_chats', 'all_group_chats', 'all_chat_administrators']),
  }),
  z.object({ type: z.enum(['chat', 'chat_administrators']), chat_id: chatId }),
  z.object({ type: z.literal('chat_member'), chat_id: chatId, user_id: whole }),
]);
const place = {
  scope: structured(scope).default({ type: 'default' }),
  language_code: z.string().default(''),
};
const commands = structured(z.array(z.object({ command: z.string(), description: z.string() })));

/** setMyCommands: the list for a scope and language. Limits: Bot API documentation, setMyCommands, BotCommand. */
export const setMyCommands: Handler<'setMyCommands'> = (call) => {
  const params = read(z.object({ ...place, commands }), call.params);
  checkChat(call, params.scope);
  if (params.commands.length > LIMITS.commands) throw badRequest('BOT_COMMANDS_TOO_MUCH');
  for (const { command, description } of params.commands) {
    if (!LIMITS.command.test(command)) throw badRequest('BOT_COMMAND_INVALID');
    const length = characters(description);
    if (length < 1 || length > LIMITS.commandDescription) throw badRequest('BOT_COMMAND_DESCRIPTION_INVALID');
  }
  call.bot.commands.set(menuKey(params.scope, params.language_code), params.commands);
  return true;
};

/** getMyCommands: the list for exactly this scope and language; empty where none was set. */
export const getMyCommands: Handler<'getMyCommands'> = (call) => {
  const params = read(z.object(place), call.params);
  checkChat(call, params.scope);
  return call.bot.commands.get(menuKey(params.scope, params.language_code)) ?? [];
};

/** deleteMyCommands: after it, the wider scope's list shows. */
export const deleteMyCommands: Handler<'deleteMyCommands'> = (call) => {
  const params = read(z.object(place), call.params);
  checkChat(call, params.scope);
  call.bot.commands.delete(menuKey(params.scope, params.language_code));
  return true;
};

function checkChat(call: Call, where: BotCommandScope): void {
  if ('chat_id' in where) call.bot.rooms.known(where.chat_id);
}
