import type { User } from 'grammy/types';

/** What somebody calls themselves in the chat. */
export function nameOf({ first_name, last_name }: User): string {
  return [first_name, last_name].filter((part) => part !== undefined).join(' ');
}
