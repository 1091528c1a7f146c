import type { BotCommand, BotCommandScope, User } from 'grammy/types';
import type { BenchChat } from './bench-message.js';

/** Command lists by scope and language. */
export type CommandMenus = Map<string, BotCommand[]>;

/** The key of a scope and language among the lists; an absent language is the empty one. */
export function menuKey(scope: BotCommandScope, language: string): string {
  const chat = 'chat_id' in scope ? String(scope.chat_id) : '';
  const user = 'user_id' in scope ? String(scope.user_id) : '';
  return [scope.type, chat, user, language].join('|');
}

/**
 * The commands that a person sees in a chat: the first list there is, from the narrowest scope to the default, each in
 * their language first. Source: Bot API documentation, BotCommandScope, "Determining list of commands"
 * (nobody is an administrator here).
 */
export function visibleCommands(menus: CommandMenus, chat: BenchChat, user: User): BotCommand[] {
  const chat_id = chat.id;
  const scopes: BotCommandScope[] =
    chat.type === 'private'
      ? [{ type: 'chat', chat_id }, { type: 'all_private_chats' }, { type: 'default' }]
      : [
          { type: 'chat_member', chat_id, user_id: user.id },
          { type: 'chat', chat_id },
          { type: 'all_group_chats' },
          { type: 'default' },
        ];
  const languages = user.language_code === undefined ? [''] : [user.language_code, ''];
  const keys = scopes.flatMap((scope) => languages.map((language) => menuKey(scope, language)));
  return keys.map((key) => menus.get(key)).find((list) => list !== undefined) ?? [];
}
