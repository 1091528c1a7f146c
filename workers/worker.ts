import type { Job } from 'bullmq';
import { Worker } from 'bullmq';
import { queuePrefix } from '../src/record/index.js';
import type { Running, WorkerDeps } from './deps.js';
import type { EffectData, QueueName } from './queues.js';
import { waitFor } from './queues.js';

type WorkerChoice = {
  concurrency: number;
  /** At most so many jobs in so many ms. */
  limiter?: { max: number; duration: number };
};

/** How often work in hand may be interrupted by a dying process before it is given up. */
const INTERRUPTIONS_AT_MOST = 5;

/** Runs one queue's jobs with a handler. Handlers may run more than once for a job, and must bear it. */
export function runWorker(
  deps: WorkerDeps,
  name: QueueName,
  handle: (data: EffectData, job: Job<EffectData>) => Promise<void>,
  { concurrency, limiter }: WorkerChoice,
): Running {
  const worker = new Worker<EffectData>(name, (job) => handle(job.data, job), {
    connection: deps.connection,
    prefix: queuePrefix(deps.record.shop),
    concurrency,
    lockDuration: deps.lockMs,
    stalledInterval: Math.max(500, deps.lockMs / 2),
    maxStalledCount: INTERRUPTIONS_AT_MOST,
    settings: { backoffStrategy: (attemptsMade, _type, error) => waitFor(attemptsMade, error) },
    ...(limiter ? { limiter } : {}),
  });
  const log = deps.log.child({ queue: name });
  worker.on('error', (error) => log.warn({ err: error }, 'the queue could not be worked'));
  worker.on('failed', (job, error) =>
    log.warn({ err: error, job: job?.id, tries: job?.attemptsMade }, 'a job failed'),
  );
  return {
    name,
    stop: async (hurry) => {
      const closing = worker.close();
      await Promise.race([closing, hurried(hurry)]);
      // BullMQ waits for what is in hand without an end, and can't be told otherwise once it closes.
      if (hurry.aborted) await letGo(worker, closing);
    },
  };
}

/** Leaves what is in hand to be found when its locks run out. */
async function letGo(worker: Worker<EffectData>, closing: Promise<void>): Promise<void> {
  closing.catch(() => undefined);
  await worker.disconnect();
}

function hurried(signal: AbortSignal): Promise<void> {
  if (signal.aborted) return Promise.resolve();
  return new Promise((resolve) => signal.addEventListener('abort', () => resolve(), { once: true }));
}
