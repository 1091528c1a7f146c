import type { JobsOptions } from 'bullmq';
import { Queue } from 'bullmq';
import type { Redis } from 'ioredis';
import { askedToWaitMs } from '../bot/say.js';
import type { Effect } from '../src/record/types.js';
import { queuePrefix } from '../src/record/index.js';

export const QUEUES = ['send', 'fetch', 'transcribe', 'wake'] as const satisfies readonly Effect['queue'][];
export type QueueName = (typeof QUEUES)[number];

export type EffectData = Effect['data'];
export type Queues = Readonly<Record<QueueName, Queue<EffectData>>>;

const DAY_SECONDS = 24 * 3600;

/**
 * Finished jobs are kept longer than an update can be redelivered, so that the same effect asked for again is seen.
 * A failed one is taken away, so that it can be asked for again.
 */
const KEPT: JobsOptions = {
  removeOnComplete: { age: 2 * DAY_SECONDS, count: 20_000 },
  removeOnFail: { age: DAY_SECONDS, count: 1_000 },
};

/** A send or a fetch is tried for about a day: the chat's server may be away for hours. */
export const PATIENT: JobsOptions = { ...KEPT, attempts: 60, backoff: { type: 'growing' } };

/** Waits double from one second up to half an hour. */
export function growingWait(attemptsMade: number): number {
  return Math.min(1_800_000, 1_000 * 2 ** Math.max(0, attemptsMade - 1));
}

/** The wait before the next try, ms: as it grows, and as long as the chat's server asked for (`retry_after`) at least. */
export function waitFor(attemptsMade: number, error: unknown): number {
  return Math.max(growingWait(attemptsMade), askedToWaitMs(error));
}

/** The shop's queues, for adding to. */
export function openQueues(connection: Redis, shop: string): Queues {
  const open = (name: QueueName): Queue<EffectData> => {
    const queue = new Queue<EffectData>(name, {
      connection,
      prefix: queuePrefix(shop),
      defaultJobOptions: name === 'wake' ? { ...KEPT, attempts: 5, backoff: { type: 'growing' } } : PATIENT,
    });
    // Whoever made the connection logs its loss; unheard, BullMQ would print it past the log.
    queue.on('error', () => undefined);
    return queue;
  };
  return { send: open('send'), fetch: open('fetch'), transcribe: open('transcribe'), wake: open('wake') };
}

export async function closeQueues(queues: Queues): Promise<void> {
  await Promise.all(QUEUES.map((name) => queues[name].close()));
}
