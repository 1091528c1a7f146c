import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Queue, Worker } from 'bullmq';
import type { Redis } from 'ioredis';
import { connectForRecord, connectForWorker } from '../../config/redis/connect.js';
import { startTestRedis } from '../support/redis.js';
import type { TestRedis } from '../support/redis.js';

describe('connections', () => {
  let redis: TestRedis;
  const said: string[] = [];
  const note = (_details: object, sentence: string): void => void said.push(sentence);
  const log = { info: note, warn: note, error: note };
  const options = (): { url: string; name: string; log: typeof log } => ({
    url: redis.url,
    name: 'test',
    log,
  });
  beforeAll(async () => {
    redis = await startTestRedis();
  });
  afterAll(() => redis.stop());

  it('carry a name', async () => {
    const client = await connectForRecord(options());
    expect(await client.client('GETNAME')).toBe('benchhand-test');
    client.disconnect();
  });

  it('of the record fail at once while the server is away, of workers wait; both come back, and it is logged once', async () => {
    const record = await connectForRecord(options());
    const worker = connectForWorker(options());
    await worker.ping();
    said.length = 0;
    await Promise.all([gone(record), gone(worker), redis.kill()]);
    await expect(record.set('bench', 'vice')).rejects.toThrow("Stream isn't writeable");
    const waiting = worker.set('bench', 'lathe');
    await Promise.all([triedTwice(record), triedTwice(worker)]);
    await redis.restart();
    expect(await waiting).toBe('OK');
    await expect
      .poll(() => said.filter((line) => line === 'Redis is back').length, { timeout: 5_000 })
      .toBe(2);
    expect(await record.get('bench')).toBe('lathe');
    expect(said.filter((line) => line.startsWith('Redis cannot be reached')).length).toBe(2);
    record.disconnect();
    worker.disconnect();
  });

  it('that find no server say so in the end, with the address that was tried', async () => {
    const url = `unix://${redis.dir}/nobody.sock`;
    await expect(connectForRecord({ ...options(), url }, 100)).rejects.toThrow(
      /cannot be reached: .*nobody\.sock/,
    );
  });

  it('serve BullMQ, whose queues and workers duplicate them', async () => {
    const [producer, consumer] = [await connectForRecord(options()), connectForWorker(options())];
    const queue = new Queue('turn', { connection: producer, prefix: '{test}' });
    const done = new Promise<unknown>((resolve) => {
      const worker = new Worker('turn', (job) => Promise.resolve(job.data), {
        connection: consumer,
        prefix: '{test}',
      });
      worker.on('completed', (_job, result) => void worker.close().then(() => resolve(result)));
    });
    await queue.add('one', { turns: 3 });
    expect(await done).toEqual({ turns: 3 });
    await queue.close();
    producer.disconnect();
    consumer.disconnect();
  });

  const triedTwice = (client: Redis): Promise<void> =>
    new Promise((resolve) => {
      client.on('reconnecting', () => client.once('reconnecting', () => resolve()));
    });
  const gone = (client: { once(event: 'close', listener: () => void): unknown }): Promise<void> =>
    new Promise((resolve) => client.once('close', resolve));
});
