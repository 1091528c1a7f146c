import { createHash } from 'node:crypto';
import { readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Queue } from 'bullmq';
import { extract, list } from 'tar';
import { describe, expect, it } from 'vitest';
import type { Manifest } from '../../src/record/archive/format.js';
import { exportShop, queuePrefix, restoreShop } from '../../src/record/index.js';
import { makeKeys } from '../../src/record/keys.js';
import { aShop, clear, everything } from './archive-support.js';
import { anAppend, anyShop, useBench } from './support.js';

const bench = useBench();

describe('an archive', () => {
  it('gives back every key, expiry and file as it was', async () => {
    const { record, shop, filesDir, outPath } = await aShop(bench);
    const before = await everything(bench, shop);
    const kinds = new Set(Object.keys(before).map((key) => key.split(':')[0]));
    expect(kinds.size).toBe(16);
    const manifest = await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    expect(manifest.counts).toEqual({ streams: 2, events: 451, files: 2, fileBytes: 200_007 });
    expect(manifest).toMatchObject({ shop, streams: { 'job-1': 450, 'contact-2': 1 }, missingFiles: [] });

    const state = await record.load('job-1');
    await clear(bench, shop);
    const elsewhere = await bench.folder();
    const restored = await restoreShop({ archivePath: outPath, redis: bench.redis, filesDir: elsewhere });
    expect(restored).toEqual({ outcome: 'restored', shop, manifest });
    expect(await everything(bench, shop)).toEqual(before);
    const again = bench.open({ shop, filesDir: elsewhere });
    expect(await again.load('job-1')).toEqual(state);
    const photo = createHash('sha256').update('a photo').digest('hex');
    expect(await readFile(again.files.path(photo), 'utf8')).toBe('a photo');
    const left = (await readdir(elsewhere, { recursive: true })).filter((name) => name.length >= 64);
    expect(left).toHaveLength(2);
    // What was read but not acknowledged is handed on again, before what was never read.
    const waiting = await again.outbox.read('new-relay', { count: 1000, blockMs: 1 });
    expect(waiting.map(({ effect }) => effect.id)).toEqual(
      Array.from({ length: 200 }, (_, n) => `e-${n + 100}`),
    );
    expect(await again.append(anAppend({ expectedVersion: 450 }))).toMatchObject({ version: 451 });
  });

  it('can be restored aside, under another id', async () => {
    const { shop, filesDir, outPath } = await aShop(bench);
    await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    const aside = anyShop();
    const options = { archivePath: outPath, redis: bench.redis, filesDir: await bench.folder(), shop: aside };
    expect(await restoreShop(options)).toMatchObject({ outcome: 'restored', shop: aside });
    expect(await everything(bench, aside)).toEqual(await everything(bench, shop));
  });

  it("leaves out BullMQ's queues, leases and the rehearsal clock, and takes an empty shop", async () => {
    const { record, shop, filesDir, outPath } = await aShop(bench);
    const before = await everything(bench, shop);
    const queues = [queuePrefix(shop), `benchhand:{${shop}}`].map(
      (prefix) => new Queue('send', { connection: bench.redis, prefix }),
    );
    for (const queue of queues) await queue.add('x', { id: 1 }, { jobId: 'one' });
    await record.lease.take('poller', 'bot', 60_000);
    await record.clock.set(5);
    await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    for (const queue of queues) await queue.close();
    await clear(bench, shop);
    await restoreShop({ archivePath: outPath, redis: bench.redis, filesDir: await bench.folder() });
    expect(await everything(bench, shop)).toEqual(before);

    const empty = { redis: bench.redis, shop: anyShop(), filesDir: '/nowhere', outPath: `${outPath}-2` };
    expect((await exportShop(empty)).counts).toEqual({ streams: 0, events: 0, files: 0, fileBytes: 0 });
    const options = { archivePath: empty.outPath, redis: bench.redis, filesDir: await bench.folder() };
    expect(await restoreShop(options)).toMatchObject({ outcome: 'restored' });
    expect(await everything(bench, empty.shop)).toEqual({});
  });

  it('names the files that the disk no longer has', async () => {
    const { record, shop, filesDir, outPath } = await aShop(bench);
    const photo = createHash('sha256').update('a photo').digest('hex');
    await rm(record.files.path(photo));
    const manifest = await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    expect(manifest.missingFiles).toEqual([photo]);
    expect(manifest.counts.files).toBe(1);
  });

  it('shows one moment of a shop at work: no command without its events and effects', async () => {
    const { redis } = bench;
    const { record, shop, filesDir, outPath } = await aShop(bench);
    let isWorking = true;
    const work = async (stream: `job-${string}`) => {
      for (let n = 0; isWorking; n += 1) {
        const id = `${stream}-${n}`;
        const effects = [{ id, queue: 'send', data: {} }] as const;
        // A stream of its own each tenth time: new streams come into being during the export.
        const target = n % 10 === 0 ? (`${stream}-${n}` as const) : stream;
        const { version } = await record.events(target);
        await record.append(
          anAppend({ stream: target, expectedVersion: version, commandId: id, effects, dueAt: n }),
        );
        await record.outbox.ack(await record.outbox.read('relay', { count: 1, blockMs: 1 }));
      }
    };
    const workers = ['job-a', 'job-b'].map((stream) => work(stream as 'job-a'));
    const archives: Manifest[] = [];
    for (let n = 0; n < 5; n += 1) {
      archives.push(await exportShop({ redis, shop, filesDir, outPath: `${outPath}-${n}` }));
    }
    isWorking = false;
    await Promise.all(workers);
    const grown = archives.map(({ counts }) => counts.events);
    expect(grown.at(-1)).toBeGreaterThan(grown[0]!);
    for (const [n, manifest] of archives.entries()) {
      const aside = anyShop();
      const options = { archivePath: `${outPath}-${n}`, redis, filesDir: await bench.folder(), shop: aside };
      expect(await restoreShop(options)).toMatchObject({ outcome: 'restored' });
      const restored = bench.open({ shop: aside });
      const commands = new Set<string>();
      for (const stream of await restored.streams()) {
        const { version, events } = await restored.events(stream);
        expect(version).toBe(manifest.streams[stream]);
        for (const { command } of events) commands.add(`${stream}:${command}`);
      }
      const keys = makeKeys(aside);
      const seen = (await redis.keys(`${keys.prefix}command:*`)).map((key) =>
        key.split(':').slice(3).join(':'),
      );
      expect(new Set(seen)).toEqual(commands);
      const effects = (await redis.zrange(keys.effectIds, 0, -1)).filter((id) => id.startsWith('job-'));
      const expected = [...commands]
        .map((named) => named.split(':')[1]!)
        .filter((id) => id.startsWith('job-'));
      expect(effects.sort()).toEqual(expected.sort());
    }
  });

  it('keeps the manifest first, and a digest that sha256 confirms', async () => {
    const { shop, filesDir, outPath } = await aShop(bench);
    const manifest = await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    const names: string[] = [];
    await list({ file: outPath, onReadEntry: (entry) => void names.push(entry.path) });
    expect(names.slice(0, 2)).toEqual(['manifest.json', 'record.jsonl']);
    const folder = await bench.folder();
    await extract({ file: outPath, cwd: folder });
    expect(await hashOf(join(folder, 'record.jsonl'))).toBe(manifest.record.sha256);
    const lines = (await readFile(join(folder, 'record.jsonl'), 'utf8')).trimEnd().split('\n');
    expect(lines).toHaveLength(manifest.record.rows);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThan(100_000);
  });
});

async function hashOf(path: string): Promise<string> {
  return createHash('sha256')
    .update(await readFile(path))
    .digest('hex');
}
