import type { Redis } from 'ioredis';
import type { Keys } from './keys.js';
import { assertStreamId } from './keys.js';
import type { ShopRecord, StreamId } from './types.js';

/** The due index: which stream is next due when, in ms of shop time. */
export function makeDue(redis: Redis, keys: Keys): ShopRecord['due'] {
  return {
    until: async (at) => pairs(await redis.zrangebyscore(keys.due, '-inf', at, 'WITHSCORES')),
    next: async () => pairs(await redis.zrange(keys.due, 0, 0, 'WITHSCORES'))[0]?.at ?? null,
    set: async (stream, at) => {
      assertStreamId(stream);
      if (at === null) await redis.zrem(keys.due, stream);
      else await redis.zadd(keys.due, at, stream);
    },
  };
}

function pairs(reply: readonly string[]): { stream: StreamId; at: number }[] {
  return reply.flatMap((stream, index) =>
    index % 2 === 0 ? [{ stream: stream as StreamId, at: Number(reply[index + 1]) }] : [],
  );
}
