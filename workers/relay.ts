import { setTimeout as sleep } from 'node:timers/promises';
import type { Effect, OutboxEntry } from '../src/record/types.js';
import type { Running, WorkerDeps } from './deps.js';
import type { Queues } from './queues.js';

const AT_ONCE = 100;
const BLOCK_MS = 1_000;

/**
 * Moves effects from the record's outbox to their queues, under their own ids: an effect moved twice is queued once. What a relay
 * that died had in hand is taken over as its work is: when its locks have run out.
 */
export function runRelay({ record, queues, clock, log, lockMs }: WorkerDeps, consumer: string): Running {
  const stopping = new AbortController();
  const running = relay();

  async function relay(): Promise<void> {
    let claimedAt = 0;
    let acked = Promise.resolve();
    while (!stopping.signal.aborted) {
      try {
        const isTime = performance.now() - claimedAt > lockMs / 2;
        if (isTime) claimedAt = performance.now();
        const left = isTime ? await record.outbox.claimIdle(consumer, lockMs) : [];
        const fresh = await record.outbox.read(consumer, { count: AT_ONCE, blockMs: BLOCK_MS });
        const entries = [...left, ...fresh];
        await moveOn(entries);
        await acked;
        // What is queued already need not be waited for: were it lost, the entries would come again and be seen.
        acked = record.outbox.ack(entries);
        acked.catch(() => undefined);
      } catch (error) {
        log.warn({ err: error }, 'the outbox could not be relayed; trying again');
        acked = Promise.resolve();
        await sleep(500);
      }
    }
    await acked.catch(() => undefined);
  }

  async function moveOn(entries: readonly OutboxEntry[]): Promise<void> {
    if (entries.length === 0) return;
    const now = await clock.now();
    await Promise.all(entries.map(({ effect }) => enqueue(queues, effect, now)));
  }

  return {
    name: 'relay',
    stop: async () => {
      stopping.abort();
      await running;
    },
  };
}

async function enqueue(queues: Queues, { id, queue, data }: Effect, now: number): Promise<void> {
  const at = data['at'];
  const delay = queue === 'wake' && typeof at === 'number' ? Math.max(0, at - now) : 0;
  await queues[queue].add(queue, data, { jobId: id, delay });
}
