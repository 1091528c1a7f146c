import { Worker } from 'bullmq';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lookOutside } from '../../config/service/outside.js';
import type { Settings } from '../../config/settings.js';
import type { Outside } from '../../src/desk/outside.js';
import { openRecord, queuePrefix } from '../../src/record/index.js';
import { healthText } from '../../src/wording/health.js';
import { textOf } from '../../src/wording/answer.js';
import type { Speaker } from '../../src/wording/answer.js';
import type { Queues } from '../../workers/queues.js';
import { closeQueues, openQueues } from '../../workers/queues.js';
import { pino } from 'pino';
import type { TestRedis } from '../support/redis.js';
import { startTestRedis } from '../support/redis.js';

const HOUR = 3_600_000;

let redis: TestRedis;
let queues: Queues;
let outside: Outside;

beforeAll(async () => {
  redis = await startTestRedis({ fsync: 'always' });
  const connection = redis.connect({ maxRetriesPerRequest: null });
  queues = openQueues(connection, 'wren');
  const filesDir = redis.dir;
  const record = openRecord({
    ...{ redis: connection, shop: 'wren', filesDir, logger: pino({ level: 'silent' }) },
  });
  const settings = { filesDir, shopKey: 'wren', backUpDir: null } as Settings;
  outside = lookOutside({ redis: connection, record, queues, settings });
});
afterAll(async () => {
  await closeQueues(queues);
  await redis.stop();
});

async function told(): Promise<string> {
  const around = {
    longestWaitMs: await outside.longestWaitMs(),
    wokeAgoMs: 0,
    disk: { freeBytes: 9e9, wholeBytes: 9e10, picturesBytes: 0 },
    redis: await outside.redis(),
    keepsBackUps: true,
  };
  const backUp = { kept: { at: 0, name: 'x', bytes: 1 }, failed: null };
  const speaker = { today: '1970-01-01', zone: 'Europe/London' } as Speaker;
  return textOf(healthText({ now: 0, sends: [], backUp, around }, speaker));
}

/** Takes a queue's job and fails at it; its next try is an hour off. */
async function failOnce(queue: 'send' | 'fetch'): Promise<void> {
  const worker = new Worker(queue, () => Promise.reject(new Error('away')), {
    connection: redis.connect({ maxRetriesPerRequest: null }),
    prefix: queuePrefix('wren'),
    settings: { backoffStrategy: () => HOUR },
  });
  worker.on('error', () => undefined);
  await new Promise<void>((resolve) => worker.once('failed', () => resolve()));
  await worker.close();
}

describe('what is told of the machine around the record', () => {
  it('says it where Redis was set to throw things away since the service started', async () => {
    expect(await told()).toMatch(/^All is well\.[^]*throws nothing away/);
    const client = redis.connect();
    await client.config('SET', 'maxmemory-policy', 'allkeys-lru');
    const text = await told();
    await client.config('SET', 'maxmemory-policy', 'noeviction');
    expect(text).toMatch(/^1 thing wants seeing to:\n• Redis may throw data away when it is full/);
    expect(text).not.toContain('throws nothing away');
  });

  it('counts what waits for its next try among what waits, but not what waits for its time', async () => {
    await queues.wake.add('wake', { at: 1 }, { delay: 3_600_000 });
    expect(await outside.longestWaitMs()).toBeNull();
    await queues.fetch.add('fetch', { id: 'f' }, { timestamp: Date.now() - 5 * HOUR });
    await failOnce('fetch');
    expect(await queues.fetch.getDelayedCount()).toBe(1);
    expect(await outside.longestWaitMs()).toBeGreaterThanOrEqual(5 * HOUR);
    expect(await told()).toContain('• Something has been waiting to be sent or fetched for 5 hours.');
    await queues.fetch.obliterate({ force: true });
  });

  it('counts from the time that it was put down for, before its first try and after', async () => {
    const job = { timestamp: Date.now() - 48 * HOUR, delay: 47 * HOUR };
    await queues.send.add('send', { id: 's' }, job);
    for (const each of await queues.send.getDelayed()) await each.promote();
    expect(await queues.send.getWaitingCount()).toBe(1);
    expect(await told()).toContain('waiting to be sent or fetched for 60 minutes.');
    await failOnce('send');
    expect(await queues.send.getDelayedCount()).toBe(1);
    expect(await told()).toContain('waiting to be sent or fetched for 60 minutes.');
  });
});
