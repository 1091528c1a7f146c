import type { Redis } from 'ioredis';
import { z } from 'zod';
import type { Keys } from './keys.js';
import { execute } from './multi.js';
import type { People, Person, ShopRecord } from './types.js';

const text = z.string().max(500);
export const personSchema = z.strictObject({
  id: z.string().min(1).max(128),
  name: text.min(1),
  also: z.array(text.min(1)).max(50).optional(),
  phone: text.optional(),
  email: text.optional(),
  address: text.optional(),
  chatId: z.number().int().optional(),
  language: text.optional(),
});

/** A person's data, as stored. */
export const asPerson = (stored: string): Person => personSchema.parse(JSON.parse(stored));

/** What is on a person's bench, from the entries as stored. */
export const asContext = (
  stored: readonly (readonly [name: string, value: string])[],
): Record<string, unknown> =>
  Object.fromEntries(stored.map(([name, value]) => [name, JSON.parse(value) as unknown]));

/** Names, numbers, addresses and chat ids, by person. They stand here and nowhere else. */
export function makePeople(redis: Redis, keys: Keys): People {
  const get = async (id: string): Promise<Person | undefined> => {
    const stored = await redis.hget(keys.people, id);
    return stored === null ? undefined : asPerson(stored);
  };

  const indexHolds = async (chatId: number, id: string): Promise<boolean> =>
    (await redis.hget(keys.peopleChats, String(chatId))) === id;

  return {
    get,
    put: async (id, person) => {
      const parsed = personSchema.safeParse(person);
      if (!parsed.success) throw new Error(`Not a person's data: ${z.prettifyError(parsed.error)}`);
      if (person.id !== id) throw new Error(`Person ${person.id} put under the id ${id}`);
      const before = (await get(id))?.chatId;
      const transaction = redis.multi().hset(keys.people, id, JSON.stringify(parsed.data));
      if (before !== undefined && before !== person.chatId && (await indexHolds(before, id))) {
        transaction.hdel(keys.peopleChats, String(before));
      }
      if (person.chatId !== undefined) transaction.hset(keys.peopleChats, String(person.chatId), id);
      await execute(transaction);
    },
    all: async () => {
      const stored = await redis.hvals(keys.people);
      return stored.map(asPerson);
    },
    byChat: async (chatId) => {
      // Both at once: a shop knows few people, and a second question would cost more than reading them.
      const [id, stored] = await Promise.all([
        redis.hget(keys.peopleChats, String(chatId)),
        redis.hgetall(keys.people),
      ]);
      const found = id === null ? undefined : stored[id];
      const person = found === undefined ? undefined : asPerson(found);
      return person?.chatId === chatId ? person : undefined;
    },
    forget: async (id) => {
      const chatId = (await get(id))?.chatId;
      const transaction = redis.multi().hdel(keys.people, id).del(keys.context(id));
      if (chatId !== undefined && (await indexHolds(chatId, id))) {
        transaction.hdel(keys.peopleChats, String(chatId));
      }
      const [removed] = await execute(transaction);
      return removed === 1;
    },
  };
}

/** What is on each person's bench. */
export function makeContext(redis: Redis, keys: Keys): ShopRecord['context'] {
  return {
    get: async (personId) => asContext(Object.entries(await redis.hgetall(keys.context(personId)))),
    set: async (personId, patch) => {
      const transaction = redis.multi();
      for (const [name, value] of Object.entries(patch)) {
        if (value == null) transaction.hdel(keys.context(personId), name);
        else transaction.hset(keys.context(personId), name, JSON.stringify(value));
      }
      await execute(transaction);
    },
  };
}
