import { existsSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestRedis } from '../support/redis.js';
import type { TestRedis } from '../support/redis.js';

describe('a throw-away Redis', () => {
  let redis: TestRedis;
  beforeAll(async () => {
    redis = await startTestRedis();
  });
  afterAll(() => redis.stop());

  it('keeps what it answered through a kill and a restart', async () => {
    const client = redis.connect();
    await client.set('bench', 'vice');
    await redis.kill();
    await redis.restart();
    expect(await redis.connect().get('bench')).toBe('vice');
  });

  it('is empty after a flush', async () => {
    const client = redis.connect();
    await client.set('bench', 'vice');
    await redis.flush();
    expect(await client.dbsize()).toBe(0);
  });

  it('can listen on a port, and leaves no files behind', async () => {
    const other = await startTestRedis({ tcp: true, fsync: 'always' });
    const client = other.connect();
    expect((await client.config('GET', 'appendfsync')) as string[]).toEqual(['appendfsync', 'always']);
    await other.stop();
    expect(existsSync(other.dir)).toBe(false);
  });
});
