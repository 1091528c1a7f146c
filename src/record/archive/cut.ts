import type { Redis } from 'ioredis';
import type { Keys } from '../keys.js';
import { execute } from '../multi.js';
import type { StreamId } from '../types.js';
import { pairwise } from './format.js';

/**
 * One moment of a shop that may be at work: what each stream had come to, what was due, and where the outbox stood.
 * Whatever an append after it added is left out of the archive, so that no command counts as carried out whose events
 * are missing.
 */
export type Cut = {
  /** Microseconds since 1970, the server's time. */
  micros: number;
  versions: ReadonlyMap<StreamId, number>;
  due: readonly [stream: string, at: string][];
  /** The id of the outbox's last entry; null when it was empty. */
  outbox: string | null;
};

type Last = [string, string[]][];

/** Takes the cut in one transaction. A stream that comes into being meanwhile makes it start again. */
export async function takeCut(redis: Redis, keys: Keys): Promise<Cut> {
  for (;;) {
    const streams = (await redis.smembers(keys.streams)).sort() as StreamId[];
    const transaction = redis
      .multi()
      .time()
      .scard(keys.streams)
      .zrange(keys.due, 0, -1, 'WITHSCORES')
      .xrevrange(keys.outbox, '+', '-', 'COUNT', 1);
    for (const stream of streams) transaction.xrevrange(keys.events(stream), '+', '-', 'COUNT', 1);
    const [time, size, due, outbox, ...lasts] = await execute(transaction);
    // Streams are only ever added, so as many as before are the same as before.
    if (size !== streams.length) continue;
    const [seconds, micros] = (time as [string, string]).map(Number);
    return {
      micros: (seconds ?? 0) * 1_000_000 + (micros ?? 0),
      versions: new Map(streams.map((stream, index) => [stream, lastVersion(lasts[index] as Last)])),
      due: pairwise(due as string[]),
      outbox: (outbox as Last)[0]?.[0] ?? null,
    };
  }
}

function lastVersion(last: Last): number {
  return Number(last[0]?.[0].split('-')[0] ?? 0);
}
