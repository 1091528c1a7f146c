import type { Logger } from 'pino';
import type { Running, WorkerDeps } from './deps.js';
import type { Queues } from './queues.js';
import { QUEUES } from './queues.js';
import { runWorker } from './worker.js';

const MINUTE_MS = 60_000;
const DAY_MS = 24 * 60 * MINUTE_MS;
const SWEEP = 'sweep';
const SWEEP_EVERY_MS = 3 * MINUTE_MS;

/**
 * Wakes the shop at the minute something is due, and every few minutes besides, for a wake that was lost. One at a
 * time; each sets the next.
 */
export async function runWake(deps: WorkerDeps, lookEveryMs = MINUTE_MS): Promise<Running> {
  const { desk, record, clock, queues, log } = deps;
  let recoveredOn: number | null = null;
  await keepSweeping(queues, log);
  const looking = setInterval(() => {
    keepSweeping(queues, log).catch((error: unknown) =>
      log.warn({ err: error }, 'the sweep could not be seen to'),
    );
  }, lookEveryMs);
  const worker = runWorker(
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
  return {
    name: worker.name,
    stop: async (hurry) => {
      clearInterval(looking);
      await worker.stop(hurry);
    },
  };

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

/**
 * Sees to it that the sweep comes. Where the next one is further off than it can be, the machine's clock was set back: what waits
 * for its time would wait for as long again, so the sweep starts anew and all of it is tried now. One that runs is left alone: BullMQ
 * puts it off by its interval each time that it is set.
 */
async function keepSweeping(queues: Queues, log: Logger): Promise<void> {
  const known = await queues.wake.getJobScheduler(SWEEP);
  const waitsMs = known?.next === undefined ? null : known.next - Date.now();
  if (waitsMs !== null && Math.abs(waitsMs) <= SWEEP_EVERY_MS) return;
  if (waitsMs !== null && waitsMs > 0) {
    log.warn({}, 'the clock was set back: what waits for its time is tried now');
    await queues.wake.removeJobScheduler(SWEEP);
    for (const name of QUEUES) await queues[name].promoteJobs();
  }
  const wake = { name: 'wake', data: { at: 0 } };
  await queues.wake.upsertJobScheduler(SWEEP, { every: SWEEP_EVERY_MS }, wake);
}
