import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Queue, Worker } from 'bullmq';
import { Api } from 'grammy';
import type { Redis } from 'ioredis';
import { pino } from 'pino';
import { makeChatPause } from '../../bot/say/pause.js';
import type { Desk } from '../../src/desk/desk.js';
import { openRecord } from '../../src/record/index.js';
import type { WorkerDeps } from '../../workers/deps.js';
import { closeQueues, openQueues } from '../../workers/queues.js';
import { runRelay } from '../../workers/relay.js';
import { runWorker } from '../../workers/worker.js';
import type { TestRedis } from '../support/redis.js';
import { printTable, timed } from './support/figures.js';
import { withRedis } from './support/with-redis.js';

const EFFECTS = 3_000;
const CONCURRENCY = 10;
/** The quickest of so many is taken on both sides: whatever else the machine does only adds to it. */
const ROUNDS = 7;
/** So many appends are under way at once, on both sides. */
const WRITERS = 10;

/** A promise that is kept once `count` things have happened. */
function counter(count: number): { one: () => void; all: Promise<void> } {
  let left = count;
  let done: () => void = () => undefined;
  const all = new Promise<void>((resolve) => (done = resolve));
  return {
    all,
    one: () => {
      left -= 1;
      if (left === 0) done();
    },
  };
}

async function inParallel(count: number, run: (n: number) => Promise<unknown>): Promise<void> {
  let next = 0;
  const work = async (): Promise<void> => {
    while (next < count) await run(next++);
  };
  await Promise.all(Array.from({ length: WRITERS }, work));
}

/** Appends with an effect each, relayed to a queue, each worked by an append of its outcome. */
async function ours(redis: TestRedis, filesDir: string, round: number): Promise<number> {
  const shop = `ours-${round}`;
  const connection = redis.connect({ maxRetriesPerRequest: null });
  const record = openRecord({ redis: redis.connect(), shop, filesDir });
  const queues = openQueues(redis.connect(), shop);
  const { one, all } = counter(EFFECTS);
  const deps: WorkerDeps = {
    ...{ record, queues, connection, clock: { now: () => Promise.resolve(Date.now()) } },
    ...{ desk: {} as Desk, log: pino({ level: 'silent' }), api: new Api('1:x'), token: '', apiRoot: '' },
    ...{ recognise: null, concurrency: CONCURRENCY, lockMs: 30_000, pause: makeChatPause() },
  };
  const relay = runRelay(deps, 'bench');
  const append = (stream: `job-${number}`, expectedVersion: number, name: string, queue: boolean) =>
    record.append({
      ...{ stream, expectedVersion, commandId: name, at: 1, by: 'bench' },
      events: [{ type: 'said', schema: 1, data: { name } }],
      ...(queue ? { effects: [{ id: name, queue: 'fetch' as const, data: { stream } }] } : {}),
    });
  const worker = runWorker(
    deps,
    'fetch',
    async ({ stream }) => {
      await append(stream as `job-${number}`, 1, `done-${String(stream)}`, false);
      one();
    },
    { concurrency: CONCURRENCY },
  );
  const ms = await timed(async () => {
    await inParallel(EFFECTS, (n) => append(`job-${n}`, 0, `effect-${n}`, true));
    await all;
  });
  const hurry = AbortSignal.timeout(5_000);
  await Promise.all([relay.stop(hurry), worker.stop(hurry)]);
  await closeQueues(queues);
  await record.close();
  return ms;
}

/** The same by BullMQ alone: an append and a job each, worked by an append. */
async function bare(redis: TestRedis, round: number): Promise<number> {
  const appends: Redis = redis.connect();
  const prefix = `{bare-${round}}`;
  const queue = new Queue(`bare`, { connection: redis.connect(), prefix });
  const { one, all } = counter(EFFECTS);
  const append = (stream: string, name: string): Promise<unknown> =>
    appends.xadd(
      `${prefix}:${stream}`,
      '*',
      'event',
      JSON.stringify({ type: 'said', schema: 1, data: { name } }),
    );
  const worker = new Worker<{ stream: string }>(
    'bare',
    async ({ data }) => {
      await append(data.stream, `done-${data.stream}`);
      one();
    },
    { connection: redis.connect({ maxRetriesPerRequest: null }), prefix, concurrency: CONCURRENCY },
  );
  const ms = await timed(async () => {
    await inParallel(EFFECTS, async (n) => {
      await append(`job-${n}`, `effect-${n}`);
      await queue.add('fetch', { stream: `job-${n}` }, { jobId: `effect-${n}` });
    });
    await all;
  });
  await worker.close();
  await queue.close();
  return ms;
}

await withRedis(async (redis) => {
  const filesDir = await mkdtemp(join(tmpdir(), 'benchhand-effects-'));
  const times: { ours: number[]; bare: number[] } = { ours: [], bare: [] };
  for (let round = 0; round <= ROUNDS; round += 1) {
    const [mine, other] = [await ours(redis, filesDir, round), await bare(redis, round)];
    if (round === 0) continue;
    times.ours.push(mine);
    times.bare.push(other);
  }
  await rm(filesDir, { recursive: true, force: true });
  printTable(
    `${EFFECTS} effects through relay and workers, ${CONCURRENCY} at once`,
    'BullMQ jobs with as many fsynced appends',
    [
      {
        what: 'time',
        ours: Math.min(...times.ours),
        baseline: Math.min(...times.bare),
        unit: 'ms',
        atMost: 1.4,
      },
    ],
  );
  console.log(`  ${Math.round((EFFECTS / Math.min(...times.ours)) * 1000)} effects a second`);
});
