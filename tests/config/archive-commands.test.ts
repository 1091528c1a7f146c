import { createHash } from 'node:crypto';
import { readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { runExport, runRestore } from '../../config/commands/archive/run.js';
import { socketUrl } from '../../config/redis/address.js';
import { startPrivateRedis } from '../../config/redis/private-redis.js';
import { openRedis } from '../../config/redis/address.js';
import { socketFor } from '../../config/redis/socket-path.js';
import { openRecord } from '../../src/record/index.js';
import { aShop, clear, everything } from '../record/archive-support.js';
import { anAppend, useBench } from '../record/support.js';

const bench = useBench();
const log = { info: () => undefined, warn: () => undefined, error: () => undefined };
const now = () => new Date('2026-03-14T08:15:30Z');
let said: string[] = [];
const say = (line: string) => void said.push(line);
afterEach(() => {
  said = [];
});

describe('with REDIS_URL', () => {
  it('exports a shop and restores it', async () => {
    const { shop, filesDir } = await aShop(bench);
    const folder = await bench.folder();
    const env = { REDIS_URL: bench.server.url, SHOP_KEY: shop, FILES_DIR: filesDir, INIT_CWD: folder };
    const before = await everything(bench, shop);
    expect(await runExport({ args: [], env, say, now })).toBe(0);
    const name = `benchhand-${shop}-2026-03-14T081530.tar.gz`;
    expect(await readdir(folder)).toEqual([name]);
    expect(said[0]).toMatch(
      `Wrote ${join(folder, name)}: 451 events in 2 streams, 2 files (0.2 MB), as it stood at 20`,
    );

    expect(await runExport({ args: [name], env, say, now })).toBe(1);
    expect(said[1]).toContain('is there already');
    expect(await runRestore({ args: [name], env, say, now })).toBe(1);
    expect(said[2]).toContain('already has a record');
    await clear(bench, shop);
    const elsewhere = { ...env, FILES_DIR: await bench.folder() };
    expect(await runRestore({ args: [name], env: elsewhere, say, now })).toBe(0);
    expect(said[3]).toContain(`Restored the shop '${shop}': 451 events`);
    expect(await everything(bench, shop)).toEqual(before);
  });

  it('fails where a file is missing, naming it, and writes the rest', async () => {
    const { record, shop, filesDir, outPath } = await aShop(bench);
    const photo = createHash('sha256').update('a photo').digest('hex');
    await rm(record.files.path(photo));
    const env = { REDIS_URL: bench.server.url, SHOP_KEY: shop, FILES_DIR: filesDir };
    expect(await runExport({ args: [outPath], env, say, now })).toBe(1);
    expect(said[1]).toContain(photo);
    expect((await readFile(outPath)).length).toBeGreaterThan(200_000);
  });

  it.each([
    ['no archive to restore', () => runRestore({ args: [], env: {}, say, now }), 'npm run restore'],
    ['two names', () => runExport({ args: ['a', 'b'], env: {}, say, now }), 'npm run export'],
    ['an option', () => runExport({ args: ['--help'], env: {}, say, now }), 'npm run export'],
    ['a wrong setting', () => runExport({ args: [], env: { SHOP_KEY: 'a b' }, say, now }), 'SHOP_KEY'],
  ])('says how it is used when given %s', async (_what, run, sentence) => {
    expect(await run()).toBe(2);
    expect(said[0]).toContain(sentence);
  });
});

describe('with the private Redis', () => {
  it('exports beside a running service, restores only without one, and leaves no server behind', async () => {
    const dataDir = await bench.folder();
    const archive = join(await bench.folder(), 'shop.tar.gz');
    const env = { DATA_DIR: dataDir };
    const service = await startPrivateRedis({ dataDir, log });
    if (!service.ok) throw new Error(service.problem);
    const redis = openRedis(service.redis.url, {});
    await openRecord({ redis, shop: 'shop', filesDir: join(dataDir, 'files') }).append(anAppend());
    expect(await runExport({ args: [archive], env, say, now })).toBe(0);
    expect(await runRestore({ args: [archive], env, say, now })).toBe(1);
    expect(said[1]).toContain('already uses');
    redis.disconnect();
    await service.redis.stop();

    const restored = { DATA_DIR: await bench.folder() };
    expect(await runRestore({ args: [archive], env: restored, say, now })).toBe(0);
    const second = join(await bench.folder(), 'second.tar.gz');
    expect(await runExport({ args: [second], env: restored, say, now })).toBe(0);
    expect(said[3]).toContain('1 events in 1 streams');
    const left = openRedis(socketUrl(socketFor(join(restored.DATA_DIR, 'redis'))), {
      ...{ retryStrategy: () => null, lazyConnect: true },
    });
    left.on('error', () => undefined);
    await expect(left.connect()).rejects.toThrow();
  });
});
