import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspectRedis, readFacts, refusalsFor, warningsFor } from '../../config/redis/inspect-redis.js';
import type { RedisFacts } from '../../config/redis/inspect-redis.js';
import { startTestRedis } from '../support/redis.js';
import type { TestRedis } from '../support/redis.js';

describe('the inspection of a Redis', () => {
  let redis: TestRedis;
  beforeAll(async () => {
    redis = await startTestRedis({ fsync: 'always' });
  });
  afterAll(() => redis.stop());

  const changed = async (...settings: [string, string][]): ReturnType<typeof inspectRedis> => {
    const client = redis.connect();
    for (const [name, value] of settings) await client.config('SET', name, value);
    return inspectRedis(client);
  };

  it('finds nothing wrong with a server set as the private one is', async () => {
    const { facts, refusals, warnings } = await inspectRedis(redis.connect());
    expect({ refusals, warnings }).toEqual({ refusals: [], warnings: [] });
    expect(facts).toMatchObject({
      evictionPolicy: 'noeviction',
      appendOnly: true,
      fsync: 'always',
      cluster: false,
    });
    expect(facts.version).toMatch(/^\d+\.\d+\.\d+$/);
  });

  it('refuses eviction', async () => {
    const { refusals } = await changed(['maxmemory-policy', 'allkeys-lru']);
    expect(refusals).toEqual([expect.stringContaining('allkeys-lru')]);
    await changed(['maxmemory-policy', 'noeviction']);
  });

  it('warns of a slow flush, and of no append-only file', async () => {
    expect((await changed(['appendfsync', 'everysec'])).warnings).toEqual([
      expect.stringContaining('once a second'),
    ]);
    expect((await changed(['appendfsync', 'no'])).warnings).toEqual([
      expect.stringContaining('to the system'),
    ]);
    const { warnings, refusals } = await changed(['appendonly', 'no']);
    expect(warnings).toEqual([expect.stringContaining('not append-only')]);
    expect(refusals).toEqual([]);
  });

  it.each([
    ['6.0.16', false],
    ['5.0.14', false],
    ['6.2.0', true],
    ['10.0.1', true],
    ['', false],
  ])('of version "%s": may be used: %s', (version, isAllowed) => {
    const facts: RedisFacts = {
      version,
      evictionPolicy: 'noeviction',
      appendOnly: true,
      fsync: null,
      cluster: false,
    };
    expect(refusalsFor(facts)).toHaveLength(isAllowed ? 0 : 1);
  });

  it('does not need CONFIG, which some hosts forbid', async () => {
    const client = redis.connect();
    await client.acl('SETUSER', 'guest', 'on', '>word', '~*', '+@all', '-config');
    const guest = redis.connect({ username: 'guest', password: 'word' });
    expect((await inspectRedis(guest)).facts.fsync).toBeNull();
  });

  it('warns of nothing that it is not told', () => {
    expect(warningsFor(readFacts('redis_version:7.2.4\r\naof_enabled:1\r\n', null))).toEqual([]);
  });
});
