import type { Redis } from 'ioredis';
import type { KeyKind, Keys } from './keys.js';
import { kindOf } from './keys.js';
import type { ShopRecord } from './types.js';

/** What is kept for a while beside the streams, and may quote anybody: what updates came to, buttons, what is on a bench. */
const PASSING: readonly KeyKind[] = ['inbox', 'button', 'context', 'chat-message'];
const PAGE = 200;

/** Drops whatever passing thing mentions somebody or is of one of some chats; the streams and the words beside them are not touched. */
export function makeForgetMentions(redis: Redis, keys: Keys): ShopRecord['forgetMentions'] {
  return async (isMentioned, chats = []) => {
    // A chat's number stands as a value by itself, in an update and in what was made of one.
    const inChats = chats.map((chat) => new RegExp(`:${chat}[,}\\]]`));
    const mentions = (value: string): boolean =>
      inChats.some((chat) => chat.test(value)) || textsIn(value).some(isMentioned);
    let cursor = '0';
    do {
      const [next, page] = await redis.scan(cursor, 'MATCH', `${keys.prefix}*`, 'COUNT', PAGE);
      cursor = next;
      for (const key of page) {
        const kind = kindOf(keys.prefix, key);
        if (kind === 'context') await dropFields(redis, key, mentions);
        else if (kind === 'chat-message' && chats.some((chat) => isOfChat(keys, key, chat)))
          await redis.del(key);
        else if (kind !== undefined && PASSING.includes(kind)) await dropKey(redis, key, mentions);
      }
    } while (cursor !== '0');
    await dropEntries(redis, keys.poison, mentions);
  };
}

const isOfChat = (keys: Keys, key: string, chat: number): boolean =>
  key.startsWith(`${keys.prefix}chat-message:${chat}:`);

/** All texts in a value, as they were written; a value that is no JSON is one itself. */
function textsIn(value: string): string[] {
  try {
    return stringsOf(JSON.parse(value));
  } catch {
    return [value];
  }
}

function stringsOf(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value as Record<string, unknown>)
    .flat()
    .flatMap(stringsOf);
}

type Mentions = (value: string) => boolean;

async function dropKey(redis: Redis, key: string, mentions: Mentions): Promise<void> {
  const value = await redis.get(key);
  if (value !== null && mentions(value)) await redis.del(key);
}

async function dropFields(redis: Redis, key: string, mentions: Mentions): Promise<void> {
  const fields = Object.entries(await redis.hgetall(key)).filter(([, value]) => mentions(value));
  if (fields.length > 0) await redis.hdel(key, ...fields.map(([field]) => field));
}

async function dropEntries(redis: Redis, key: string, mentions: Mentions): Promise<void> {
  const entries = (await redis.xrange(key, '-', '+')) as [string, string[]][];
  const ids = entries.filter(([, fields]) => fields.some(mentions)).map(([id]) => id);
  if (ids.length > 0) await redis.xdel(key, ...ids);
}
