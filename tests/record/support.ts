import { randomUUID } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Redis } from 'ioredis';
import { afterAll, beforeAll } from 'vitest';
import type { RecordOptions } from '../../src/record/index.js';
import { openRecord } from '../../src/record/index.js';
import { startTestRedis } from '../support/redis.js';
import type { TestRedis, TestRedisOptions } from '../support/redis.js';
import type { Append, NewEvent, ShopRecord } from '../../src/record/types.js';

export type Bench = {
  server: TestRedis;
  redis: Redis;
  /** A record of a shop of its own, in a folder of its own. */
  open: (options?: Partial<RecordOptions>) => ShopRecord;
  folder: () => Promise<string>;
};

/** A Redis for the tests of a file. */
export function useBench(options: TestRedisOptions = {}): Bench {
  const folders: string[] = [];
  const records: ShopRecord[] = [];
  const bench = {} as Bench;
  beforeAll(async () => {
    bench.server = await startTestRedis(options);
    bench.redis = bench.server.connect();
  });
  afterAll(async () => {
    await Promise.all(records.map((record) => record.close()));
    await bench.server.stop();
    await Promise.all(folders.map((path) => rm(path, { recursive: true, force: true })));
  });
  bench.folder = async () => {
    const path = await mkdtemp(join(tmpdir(), 'benchhand-record-'));
    folders.push(path);
    return path;
  };
  bench.open = (over = {}) => {
    const filesDir = join(tmpdir(), 'benchhand-no-files');
    const record = openRecord({ redis: bench.redis, shop: anyShop(), filesDir, ...over });
    records.push(record);
    return record;
  };
  return bench;
}

export function anyShop(): string {
  return `test-${randomUUID().slice(0, 8)}`;
}

export function event(said: unknown, type = 'said', schema = 1): NewEvent {
  return { type, schema, data: said };
}

/** An append of one event to job-1, unless told otherwise. */
export function anAppend(over: Partial<Append> = {}): Append {
  return {
    ...{ stream: 'job-1', expectedVersion: 0, commandId: randomUUID(), events: [event('pitted')] },
    ...{ at: 1_700_000_000_000, by: 'person-1' },
    ...over,
  };
}
