import { expect, it, vi } from 'vitest';
import { exportShop, restoreShop } from '../../src/record/index.js';
import { aShop, everything } from './archive-support.js';
import { anAppend, anyShop, useBench } from './support.js';

const bench = useBench({ extra: ['--cluster-enabled', 'yes'], tcp: true });

it('crosses no slots on a Redis in cluster mode, for any script or transaction', async () => {
  const { redis } = bench;
  const slots = Array.from({ length: 16_384 }, (_, slot) => slot);
  await redis.call('CLUSTER', 'ADDSLOTS', ...slots);
  await vi.waitFor(
    async () => expect(await redis.call('CLUSTER', 'INFO')).toContain('cluster_state:ok'),
    10_000,
  );
  // The server tells one command over two slots from one within a slot.
  await expect(redis.mget('benchhand:{a}:x', 'benchhand:{b}:x')).rejects.toThrow('CROSSSLOT');

  const { record, shop, filesDir, outPath } = await aShop(bench);
  expect(await record.append(anAppend({ expectedVersion: 450, dueAt: null }))).toMatchObject({
    version: 451,
  });
  expect(await record.outbox.claimIdle('other', 0)).toHaveLength(50);
  expect(await record.lease.take('poller', 'a', 60_000)).toBe(true);
  expect(await record.lease.take('poller', 'a', 60_000)).toBe(true);
  expect(await record.lease.release('poller', 'a')).toBe(true);
  expect(await record.people.forget('p-1')).toBe(true);
  await exportShop({ redis, shop, filesDir, outPath });
  const aside = anyShop();
  await restoreShop({ archivePath: outPath, redis, filesDir: await bench.folder(), shop: aside });
  expect(await everything(bench, aside)).toEqual(await everything(bench, shop));
});
