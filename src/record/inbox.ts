import type { Redis } from 'ioredis';
import { DAY_MS, INBOX_DAYS } from './lifetimes.js';
import type { Keys } from './keys.js';
import { execute } from './multi.js';
import type { Inbox, InboxState, Poisoned } from './types.js';

const LIFETIME_MS = INBOX_DAYS * DAY_MS;
/** Enough to look into what went wrong; a hostile chat must not fill the memory. */
const POISON_KEPT = 1000;

/** What became of each update, so that a redelivered one resumes or is answered from its result. */
export function makeInbox(redis: Redis, keys: Keys): Inbox {
  return {
    find: async (key) => {
      return asInboxState(await redis.get(keys.inbox(key)));
    },
    begin: async (key, reading) => {
      await redis.set(keys.inbox(key), asBegun(reading), 'PX', LIFETIME_MS, 'NX');
    },
    finish: async (key, result) => {
      const state: InboxState = { state: 'done', result: result ?? null };
      await execute(
        redis
          .multi()
          .set(keys.inbox(key), JSON.stringify(state), 'PX', LIFETIME_MS)
          .del(keys.inboxTries(key)),
      );
    },
    failed: async (key) => {
      const tries = keys.inboxTries(key);
      const [count] = await execute(redis.multi().incr(tries).pexpire(tries, LIFETIME_MS));
      return Number(count);
    },
    poison: async (key, raw) => {
      const body = JSON.stringify(raw ?? null);
      await redis.xadd(keys.poison, 'MAXLEN', '~', POISON_KEPT, '*', 'key', key, 'raw', body);
    },
    poisoned: async () => {
      const entries = (await redis.xrange(keys.poison, '-', '+')) as [string, string[]][];
      const byKey = new Map(entries.map((entry) => [entry[1][1] ?? '', asPoisoned(entry)]));
      return [...byKey.values()];
    },
  };
}

/** What became of an update, as it stands in the record. */
export const asInboxState = (stored: string | null): InboxState =>
  stored === null ? { state: 'new' } : (JSON.parse(stored) as InboxState);

/** An update that was understood and not finished, as it stands in the record. */
export function asBegun(reading: unknown): string {
  const state: InboxState = { state: 'begun', reading: reading ?? null };
  return JSON.stringify(state);
}

function asPoisoned([entry, [, key = '', , raw = 'null']]: [string, string[]]): Poisoned {
  return { key, at: Number(entry.split('-')[0]), raw: JSON.parse(raw) as unknown };
}
