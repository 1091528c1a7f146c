import { pino } from 'pino';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { openRecord } from '../../../src/record/index.js';
import type { Running, WorkerDeps } from '../../../workers/deps.js';
import type { Queues } from '../../../workers/queues.js';
import { closeQueues, openQueues } from '../../../workers/queues.js';
import { runWake } from '../../../workers/wake.js';
import type { TestRedis } from '../../support/redis.js';
import { startTestRedis } from '../../support/redis.js';
import { DAY, START, until } from './scene.js';

const LOOK_EVERY_MS = 50;

let redis: TestRedis;
let queues: Queues;
let waking: Running;
let wakes = 0;

/** The machine's clock: what waits in queues goes by it, timers do not. */
beforeEach(async () => {
  vi.useFakeTimers({ toFake: ['Date'], now: START });
  wakes = 0;
  redis = await startTestRedis();
  const connection = redis.connect({ maxRetriesPerRequest: null });
  queues = openQueues(connection, 'jumps');
  const record = openRecord({ redis: connection, shop: 'jumps', filesDir: redis.dir });
  const desk = {
    wake: () => Promise.resolve((wakes += 1)),
    recover: () => Promise.resolve(0),
    keepBackUp: () => Promise.resolve('not-due'),
  };
  const clock = { now: () => Promise.resolve(Date.now()) };
  const deps = { desk, record, clock, queues, connection, lockMs: 30_000, log: pino({ level: 'silent' }) };
  waking = await runWake(deps as unknown as WorkerDeps, LOOK_EVERY_MS);
  await until('the first sweep woke the shop', () => wakes === 1);
});
afterEach(async () => {
  await waking.stop(AbortSignal.timeout(2_000));
  await closeQueues(queues);
  await redis.stop();
  vi.useRealTimers();
});

const nextSweepIn = async (): Promise<number> =>
  ((await queues.wake.getJobScheduler('sweep'))?.next ?? Infinity) - Date.now();

it('the machine’s clock set back by a day: the shop is woken at once, and swept every few minutes as before', async () => {
  await until('the next sweep is set', async () => (await nextSweepIn()) > 0);
  await queues.send.add('send', {}, { delay: 60_000 });
  vi.setSystemTime(START - DAY);
  await until('it was woken again', () => wakes >= 2);
  await until('the next sweep is soon', async () => (await nextSweepIn()) <= 180_000);
  // A send that waited for its next try is tried now, not in a day.
  await until('no send waits any more', async () => (await queues.send.getDelayedCount()) === 0);
});

it('the machine’s clock put on by a day: the sweep comes, and the next in its time', async () => {
  vi.setSystemTime(START + DAY);
  await until('it was woken again', () => wakes >= 2);
  await until('the next sweep is soon', async () => Math.abs(await nextSweepIn()) <= 180_000);
});

it('looked at again and again, the sweep is not put off', async () => {
  await until('the next sweep is set', async () => (await nextSweepIn()) > 0);
  const before = await nextSweepIn();
  const looks = vi.spyOn(queues.wake, 'getJobScheduler');
  await until('it was looked at five times', () => looks.mock.calls.length >= 5);
  expect(await nextSweepIn()).toBe(before);
  expect(wakes).toBe(1);
});
