import type { Redis } from 'ioredis';
import type { Keys } from './keys.js';
import { execute } from './multi.js';
import { BUTTON_DAYS, CHAT_MESSAGE_DAYS, DAY_MS } from './lifetimes.js';
import type { Buttons, ChatMessages } from './types.js';

async function read(redis: Redis, key: string): Promise<unknown> {
  const stored = await redis.get(key);
  return stored === null ? undefined : (JSON.parse(stored) as unknown);
}

/** What the buttons under sent messages do, by token. */
export function makeButtons(redis: Redis, keys: Keys): Buttons {
  return {
    get: (token) => read(redis, keys.button(token)),
    put: async (token, action, days = BUTTON_DAYS) => {
      await redis.set(keys.button(token), JSON.stringify(action ?? null), 'PX', Math.ceil(days * DAY_MS));
    },
    putAll: async (actions) => {
      const transaction = redis.multi();
      for (const [token, action] of actions) {
        transaction.set(keys.button(token), JSON.stringify(action ?? null), 'PX', BUTTON_DAYS * DAY_MS);
      }
      await execute(transaction);
    },
  };
}

/** What the messages of a chat were about, for replies to them and edits of them. */
export function makeChatMessages(redis: Redis, keys: Keys): ChatMessages {
  return {
    get: (chatId, messageId) => read(redis, keys.chatMessage(chatId, messageId)),
    put: async (chatId, messageId, about) => {
      const key = keys.chatMessage(chatId, messageId);
      await redis.set(key, JSON.stringify(about ?? null), 'PX', CHAT_MESSAGE_DAYS * DAY_MS);
    },
  };
}
