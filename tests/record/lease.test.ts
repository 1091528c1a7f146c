import { expect, it } from 'vitest';
import { makeKeys } from '../../src/record/keys.js';
import { useBench } from './support.js';

const bench = useBench();

it('is one holder’s at a time, who alone can renew it and give it up', async () => {
  const { lease } = bench.open();
  expect(await lease.take('poller', 'bot-1', 60_000)).toBe(true);
  expect(await lease.take('poller', 'bot-2', 60_000)).toBe(false);
  expect(await lease.renew('poller', 'bot-2', 60_000)).toBe(false);
  expect(await lease.release('poller', 'bot-2')).toBe(false);
  expect(await lease.take('poller', 'bot-1', 60_000)).toBe(true);
  expect(await lease.take('sweeper', 'bot-2', 60_000)).toBe(true);
  expect(await lease.release('poller', 'bot-1')).toBe(true);
  expect(await lease.take('poller', 'bot-2', 60_000)).toBe(true);
});

it('runs out by itself and is extended by renewing', async () => {
  const { lease, shop } = bench.open();
  const key = makeKeys(shop).lease('poller');
  await lease.take('poller', 'bot-1', 5_000);
  expect(await bench.redis.pttl(key)).toBeLessThanOrEqual(5_000);
  await lease.renew('poller', 'bot-1', 60_000);
  expect(await bench.redis.pttl(key)).toBeGreaterThan(50_000);
  await bench.redis.pexpire(key, 0);
  expect(await lease.renew('poller', 'bot-1', 60_000)).toBe(false);
  expect(await lease.take('poller', 'bot-2', 60_000)).toBe(true);
});

it('lets one of many takers have it', async () => {
  const { lease } = bench.open();
  const takers = Array.from({ length: 20 }, (_, n) => lease.take('poller', `bot-${n}`, 60_000));
  expect((await Promise.all(takers)).filter(Boolean)).toHaveLength(1);
});
