import { once } from 'node:events';
import { expect, it } from 'vitest';
import type { ShopRecord } from '../../src/record/types.js';
import { anAppend, useBench } from './support.js';

const bench = useBench();
const ids = (entries: { effect: { id: string } }[]) => entries.map(({ effect }) => effect.id);
const now = { count: 100, blockMs: 1 };

async function withEffects(...effects: string[]): Promise<ShopRecord> {
  const record = bench.open();
  await record.append(
    anAppend({ effects: effects.map((id) => ({ id, queue: 'send', data: { message: id } })) }),
  );
  return record;
}

it('gives each effect to one consumer, and its own unacknowledged ones again before new ones', async () => {
  const record = await withEffects('a', 'b', 'c');
  const { outbox } = record;
  const [first] = await outbox.read('r-1', { count: 1, blockMs: 1 });
  expect(first?.effect).toEqual({ id: 'a', queue: 'send', data: { message: 'a' } });
  expect(ids(await outbox.read('r-2', now))).toEqual(['b', 'c']);
  expect(ids(await outbox.read('r-1', now))).toEqual(['a']);
  await outbox.ack([first!]);
  expect(ids(await outbox.read('r-1', now))).toEqual([]);
  expect(await outbox.size()).toBe(2);
});

it('hands everything on at least once when a consumer dies between reading and acknowledging', async () => {
  const record = await withEffects('a', 'b', 'c', 'd');
  const dying = bench.open({ shop: record.shop });
  const [done, ...lost] = await dying.outbox.read('r-1', { count: 3, blockMs: 1 });
  await dying.outbox.ack([done!]);
  await dying.close();
  const { outbox } = record;
  expect(ids(await outbox.read('r-2', now))).toEqual(['d']);
  expect(ids(await outbox.claimIdle('r-2', 60_000))).toEqual([]);
  const claimed = await outbox.claimIdle('r-2', 0);
  expect(ids(claimed)).toEqual(['b', 'c', 'd']);
  expect(claimed.slice(0, 2)).toEqual(lost);
  expect(ids(await bench.open({ shop: record.shop }).outbox.read('r-1', now))).toEqual([]);
  await outbox.ack(claimed);
  expect([await outbox.size(), await outbox.oldestAt()]).toEqual([0, null]);
});

it('waits for an effect and gives it as it comes, without holding up other commands', async () => {
  const record = bench.open();
  const waiting = record.outbox.read('r-1', { count: 10, blockMs: 20_000 });
  await record.append(anAppend({ effects: [{ id: 'a', queue: 'wake', data: {} }] }));
  expect(ids(await waiting)).toEqual(['a']);
});

it('tells how much waits and since when', async () => {
  const [seconds] = await bench.redis.time();
  const record = await withEffects('a', 'b');
  const oldest = (await record.outbox.oldestAt()) ?? 0;
  expect(oldest).toBeGreaterThanOrEqual(Number(seconds) * 1000);
  await record.outbox.read('r-1', now);
  expect([await record.outbox.size(), await record.outbox.oldestAt()]).toEqual([2, oldest]);
});

it('claims in pages without losing any', async () => {
  const names = Array.from({ length: 250 }, (_, n) => `e-${n}`);
  const record = await withEffects(...names);
  await record.outbox.read('dead', { count: 1000, blockMs: 1 });
  const seen: string[] = [];
  for (let page = await record.outbox.claimIdle('r-1', 0, 100); page.length > 0;) {
    seen.push(...ids(page));
    await record.outbox.ack(page);
    page = await record.outbox.claimIdle('r-1', 0, 100);
  }
  expect(seen.sort()).toEqual(names.sort());
});

it('reads beside a connection that refuses to wait', async () => {
  const redis = bench.server.connect({ enableOfflineQueue: false, maxRetriesPerRequest: 0 });
  await once(redis, 'ready');
  const record = bench.open({ redis });
  const waiting = record.outbox.read('r-1', { count: 10, blockMs: 20_000 });
  await record.append(anAppend({ effects: [{ id: 'a', queue: 'wake', data: {} }] }));
  expect(ids(await waiting)).toEqual(['a']);
});
