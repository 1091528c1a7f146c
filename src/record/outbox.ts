import type { Redis } from 'ioredis';
import type { Keys } from './keys.js';
import { execute } from './multi.js';
import type { Effect, Outbox, OutboxEntry } from './types.js';

const GROUP = 'relay';
type Raw = [entry: string, fields: string[] | null];

/**
 * The effects that wait to be handed to their queues. `blocking` gives a connection of the outbox's own, asked for at the
 * first read: a read that waits for entries would hold up every other command.
 */
export function makeOutbox(redis: Redis, keys: Keys, blocking: () => Redis): Outbox {
  const { outbox } = keys;

  /** Consumers whose unacknowledged entries are all among those owed, so that they need not be asked for. */
  const settled = new Set<string>();
  const owed = new Set<string>();
  const owe = (entries: readonly OutboxEntry[]): readonly OutboxEntry[] => {
    for (const { entry } of entries) owed.add(entry);
    return entries;
  };

  const ack = async (entries: readonly string[]): Promise<void> => {
    if (entries.length === 0) return;
    for (const entry of entries) owed.delete(entry);
    try {
      await execute(
        redis
          .multi()
          .xack(outbox, GROUP, ...entries)
          .xdel(outbox, ...entries),
      );
    } catch (error) {
      for (const entry of entries) owed.add(entry);
      throw error;
    }
  };

  /** Entries that were deleted while pending have nothing left to hand on: they are acknowledged. */
  const living = async (raw: readonly Raw[]): Promise<OutboxEntry[]> => {
    await ack(raw.filter(([, fields]) => fields === null).map(([entry]) => entry));
    return raw.flatMap(([entry, fields]) =>
      fields === null ? [] : [{ entry, effect: JSON.parse(fields[1] ?? '') as Effect }],
    );
  };

  /** BLOCK 0 would wait for ever. */
  const readGroup = async (
    connection: Redis,
    consumer: string,
    options: ['COUNT', number] | ['COUNT', number, 'BLOCK', number],
    from: '0' | '>',
  ): Promise<OutboxEntry[]> => {
    const reply = await withGroup(redis, outbox, () =>
      connection.call('XREADGROUP', 'GROUP', GROUP, consumer, ...options, 'STREAMS', outbox, from),
    );
    return living(entriesOf(reply));
  };

  return {
    read: async (consumer, { count, blockMs }) => {
      if (!settled.has(consumer) || owed.size > 0) {
        const own = await readGroup(redis, consumer, ['COUNT', count], '0');
        if (own.length > 0) return [...owe(own)];
        owed.clear();
      }
      // What a read that fails was given is ours all the same, and must be asked for.
      settled.delete(consumer);
      const fresh = await readGroup(
        blocking(),
        consumer,
        ['COUNT', count, 'BLOCK', Math.max(1, blockMs)],
        '>',
      );
      settled.add(consumer);
      return [...owe(fresh)];
    },
    ack: (entries) => ack(entries.map(({ entry }) => entry)),
    claimIdle: async (consumer, idleMs, count = 100) => {
      const claimed: Raw[] = [];
      let cursor = '0-0';
      do {
        const reply = (await withGroup(redis, outbox, () =>
          redis.xautoclaim(outbox, GROUP, consumer, idleMs, cursor, 'COUNT', count),
        )) as [string, (Raw | null)[]];
        cursor = reply[0];
        claimed.push(...reply[1].filter((raw) => raw !== null));
      } while (cursor !== '0-0' && claimed.length < count);
      return [...owe(await living(claimed))];
    },
    size: () => redis.xlen(outbox),
    oldestAt: async () => {
      const [oldest] = (await redis.xrange(outbox, '-', '+', 'COUNT', 1)) as Raw[];
      return oldest === undefined ? null : Number(oldest[0].split('-')[0]);
    },
  };
}

function entriesOf(reply: unknown): Raw[] {
  const streams = reply as [string, Raw[]][] | null;
  return streams?.[0]?.[1] ?? [];
}

/** Runs a group command; makes the group where there is none yet (a new shop, or one just restored). */
async function withGroup<T>(redis: Redis, key: string, run: () => Promise<T>): Promise<T> {
  try {
    return await run();
  } catch (error) {
    if (!(error instanceof Error && error.message.startsWith('NOGROUP'))) throw error;
  }
  try {
    await redis.xgroup('CREATE', key, GROUP, '0', 'MKSTREAM');
  } catch (error) {
    if (!(error instanceof Error && error.message.startsWith('BUSYGROUP'))) throw error;
  }
  return run();
}
