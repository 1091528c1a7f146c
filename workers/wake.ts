import type { Running, WorkerDeps } from './deps.js';
import { runWorker } from './worker.js';

const MINUTE_MS = 60_000;
const DAY_MS = 24 * 60 * MINUTE_MS;
const SWEEP_EVERY_MS = 3 * MINUTE_MS;

/**
 * Wakes the shop at the minute something is due, and every few minutes besides, for a wake that was lost. One at a
 * time; each sets the next.
 */
export async function runWake(deps: WorkerDeps): Promise<Running> {
  const { desk, record, clock, queues } = deps;
  let recoveredOn: number | null = null;
  await queues.wake.upsertJobScheduler('sweep', { every: SWEEP_EVERY_MS }, { name: 'wake', data: { at: 0 } });
  return runWorker(
    deps,
    'wake',
    async () => {
      const now = await clock.now();
      await desk.wake(now);
      await recoverDaily(now);
      await desk.keepBackUp(now);
      await setNext();
    },
    { concurrency: 1 },
  );

  async function recoverDaily(now: number): Promise<void> {
    const day = Math.floor(now / DAY_MS);
    if (day === recoveredOn) return;
    recoveredOn = day;
    await desk.recover(now);
  }

  async function setNext(): Promise<void> {
    const [next, now] = await Promise.all([record.due.next(), clock.now()]);
    if (next === null || next <= now) return;
    const minute = Math.ceil(next / MINUTE_MS);
    await queues.wake.add(
      'wake',
      { at: minute * MINUTE_MS },
      { jobId: `wake-${minute}`, delay: minute * MINUTE_MS - now },
    );
  }
}
