import type { Redis } from 'ioredis';
import { decodeEvent } from './append.js';
import type { Keys } from './keys.js';
import { assertStreamId } from './keys.js';
import { execute } from './multi.js';
import type { Loaded, NewEvent, ShopRecord, StreamId } from './types.js';

type StreamReads = Pick<
  ShopRecord,
  'seen' | 'load' | 'events' | 'texts' | 'textsOf' | 'textEdition' | 'putText' | 'forgetTexts' | 'streams'
>;
export type Entry = [string, string[]];

/** The field of a stream's words that counts their changes: no text has an empty id. */
const EDITION = '';

/** The streams' read side, and the words kept beside them. Older events are brought up to date by `upcast`. */
export function makeStreams(redis: Redis, keys: Keys, upcast: (event: NewEvent) => NewEvent): StreamReads {
  // Reading from `afterVersion` itself tells a stream that stands still from one that was replaced by a shorter one.
  const events: StreamReads['events'] = async (stream, afterVersion = 0) => {
    assertStreamId(stream);
    const from = Math.max(afterVersion, 1);
    const entries = (await redis.xrange(keys.events(stream), from, '+')) as Entry[];
    const last = entries.length > 0 || from === 1 ? null : await lastEntry(redis, keys.events(stream));
    return eventsAfter(stream, afterVersion, entries, last, upcast);
  };

  const texts: StreamReads['texts'] = async (stream) => {
    assertStreamId(stream);
    const found = new Map(Object.entries(await redis.hgetall(keys.texts(stream))));
    found.delete(EDITION);
    return found;
  };

  return {
    seen: async (stream, commandId) => {
      assertStreamId(stream);
      const stored = await redis.get(keys.command(stream, commandId));
      return stored === null ? null : Number(stored.split(' ')[0]);
    },
    events,
    texts,
    load: async (stream, afterVersion = 0) => {
      // Events first: an append writes both at once, so words read afterwards cannot be missing.
      const loaded = await events(stream, afterVersion);
      return { ...loaded, texts: await texts(stream) };
    },
    textsOf: async (stream, ids) => {
      assertStreamId(stream);
      const wanted = ids.filter((id) => id !== EDITION);
      if (wanted.length === 0) return new Map();
      const found = await redis.hmget(keys.texts(stream), ...wanted);
      return new Map(wanted.flatMap((id, index) => (found[index] == null ? [] : [[id, found[index]]])));
    },
    textEdition: async (stream) => {
      assertStreamId(stream);
      return Number((await redis.hget(keys.texts(stream), EDITION)) ?? 0);
    },
    putText: async (stream, id, text) => {
      assertStreamId(stream);
      const key = keys.texts(stream);
      await execute(redis.multi().hset(key, id, text).hincrby(key, EDITION, 1));
    },
    forgetTexts: async (stream, ids) => {
      assertStreamId(stream);
      if (ids.length === 0) return;
      const key = keys.texts(stream);
      await execute(
        redis
          .multi()
          .hdel(key, ...ids)
          .hincrby(key, EDITION, 1),
      );
    },
    streams: async () => (await redis.smembers(keys.streams)).sort() as StreamId[],
  };
}

/** The events after a version from the entries from it on; `last` is the id of the stream's last entry where there are none. */
export function eventsAfter(
  stream: StreamId,
  afterVersion: number,
  entries: readonly Entry[],
  last: string | null,
  upcast: (event: NewEvent) => NewEvent,
): Omit<Loaded, 'texts'> {
  const found = entries.map((entry) => decodeEvent(stream, entry, upcast));
  const version = found.at(-1)?.version ?? Number(last?.split('-')[0] ?? 0);
  return { version, events: found.filter((event) => event.version > afterVersion) };
}

async function lastEntry(redis: Redis, key: string): Promise<string | null> {
  const [last] = (await redis.xrevrange(key, '+', '-', 'COUNT', 1)) as Entry[];
  return last?.[0] ?? null;
}
