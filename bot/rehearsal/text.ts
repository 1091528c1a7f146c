import type { MessageEntity } from 'grammy/types';
import { checkEntities } from './entities.js';
import { badRequest } from './faults.js';
import { LIMITS } from './limits.js';

/** Text with its entities, as a message carries them; `entities` is absent where there are none. */
export type Formatted = { text: string; entities?: MessageEntity[] };

/** Characters as the limits count them: Unicode code points, from memory of the service's configuration page. */
export const characters = (text: string): number => [...text].length;

/** The text of a message: not empty, within 4096 characters. Source: Bot API documentation, sendMessage. */
export function messageText(
  text: string,
  parseMode: string | undefined,
  entities: MessageEntity[] = [],
): Formatted {
  refuseParseMode(parseMode);
  if (text.trim() === '') throw badRequest('message text is empty');
  if (characters(text.trim()) > LIMITS.text) throw badRequest('message is too long');
  return trimmed(text, entities);
}

/** A caption: within 1024 characters, may be empty. Source: Bot API documentation, sendPhoto. */
export function captionText(
  text: string,
  parseMode: string | undefined,
  entities: MessageEntity[] = [],
): Formatted {
  refuseParseMode(parseMode);
  if (characters(text.trim()) > LIMITS.caption) throw badRequest('message caption is too long');
  return trimmed(text, entities);
}

/** White space around a text is cut off, and entities move with it. */
function trimmed(text: string, entities: MessageEntity[]): Formatted {
  checkEntities(text, entities);
  const lead = text.length - text.trimStart().length;
  const cut = text.trim();
  const moved = entities.flatMap((entity) => {
    const offset = Math.max(0, entity.offset - lead);
    const length = Math.min(entity.offset + entity.length - lead, cut.length) - offset;
    return length > 0 ? [{ ...entity, offset, length }] : [];
  });
  return moved.length === 0 ? { text: cut } : { text: cut, entities: moved };
}

/** People's words are never pasted into HTML or Markdown here, so a parse mode is a bug of ours: refused. */
function refuseParseMode(parseMode: string | undefined): void {
  if (parseMode !== undefined && parseMode !== '') throw badRequest('unsupported parse_mode');
}
