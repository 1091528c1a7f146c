import { mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { create, extract } from 'tar';
import { describe, expect, it } from 'vitest';
import { exportShop, isHalfRestored, restoreShop } from '../../src/record/index.js';
import { makeKeys } from '../../src/record/keys.js';
import { aShop, clear, everything } from './archive-support.js';
import { useBench } from './support.js';

const bench = useBench();

describe('a restore', () => {
  it('refuses a shop that has a record already, and changes nothing', async () => {
    const { shop, filesDir, outPath } = await aShop(bench);
    await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    const before = await everything(bench, shop);
    const elsewhere = await bench.folder();
    const refused = await restoreShop({ archivePath: outPath, redis: bench.redis, filesDir: elsewhere });
    expect(refused).toMatchObject({ outcome: 'refused', reason: 'not-empty' });
    expect(refused).toHaveProperty('sentence', expect.stringContaining(`'${shop}' already has a record`));
    expect(await everything(bench, shop)).toEqual(before);
    expect(await readdir(elsewhere)).toEqual([]);
  });

  const damages: [string, (archive: Buffer) => Buffer, RegExp][] = [
    ['cut short', (archive) => archive.subarray(0, archive.length / 2), /cannot be used/],
    ['with its last bytes missing', (archive) => archive.subarray(0, -20), /cannot be used/],
    ['with one byte changed', (archive) => flip(archive, archive.length / 2), /cannot be used/],
    ['that is no archive', () => Buffer.from('a letter to the plater'), /cannot be used/],
    ['that is empty', () => Buffer.alloc(0), /cannot be used/],
  ];
  it.each(damages)('refuses an archive %s', async (_what, damage, sentence) => {
    const { shop, filesDir, outPath } = await aShop(bench);
    await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    await clear(bench, shop);
    await writeFile(outPath, damage(await readFile(outPath)));
    await expectRefused(outPath, sentence);
    expect(await everything(bench, shop)).toEqual({});
  });

  const changes: [string, (folder: string) => Promise<string[] | void>, RegExp][] = [
    [
      'whose record was changed',
      (at) => swap(join(at, 'record.jsonl'), 'words 7', 'lies 7'),
      /record\.jsonl is not/,
    ],
    ['whose photo was changed', changePhoto, /is not what was written/],
    ['without its record', (at) => rm(join(at, 'record.jsonl')), /record\.jsonl is not/],
    [
      'without a file',
      async (at) => rm(join(at, 'files', await onePhoto(at))),
      /has 1 files and should have 2/,
    ],
    ['without its manifest', (at) => rm(join(at, 'manifest.json')), /manifest\.json is missing/],
    [
      'from a newer version',
      (at) => swap(join(at, 'manifest.json'), '"schema": 1', '"schema": 2'),
      /newer Benchhand/,
    ],
    ['with a stranger in it', (at) => writeFile(join(at, 'run.sh'), 'x'), /not Benchhand's: "run.sh"/],
    ['with a link in it', async (at) => symlinkPhoto(at), /not Benchhand's/],
  ];
  it.each(changes)('refuses an archive %s', async (_what, change, sentence) => {
    const { shop, filesDir, outPath } = await aShop(bench);
    await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    await clear(bench, shop);
    const folder = await mkdtemp(join(await bench.folder(), 'opened-'));
    await extract({ file: outPath, cwd: folder });
    await change(folder);
    await create({ file: outPath, cwd: folder, gzip: true }, await readdir(folder));
    await expectRefused(outPath, sentence);
    expect(await everything(bench, shop)).toEqual({});
  });

  it('says where there is no archive', async () => {
    await expectRefused('/nowhere/shop.tar.gz', /no archive at \/nowhere/);
  });

  it('is begun again when it was interrupted', async () => {
    const { shop, filesDir, outPath } = await aShop(bench);
    await exportShop({ redis: bench.redis, shop, filesDir, outPath });
    const before = await everything(bench, shop);
    const keys = makeKeys(shop);
    await bench.redis.del(keys.people, keys.outbox);
    await bench.redis.set(keys.restoring, 1);
    await bench.redis.hset(keys.context('nobody'), 'left', 'over');
    expect(await isHalfRestored(bench.redis, shop)).toBe(true);
    await restoreShop({ archivePath: outPath, redis: bench.redis, filesDir: await bench.folder() });
    expect(await isHalfRestored(bench.redis, shop)).toBe(false);
    expect(await everything(bench, shop)).toEqual(before);
  });
});

async function expectRefused(archivePath: string, sentence: RegExp): Promise<void> {
  const filesDir = await bench.folder();
  const refused = await restoreShop({ archivePath, redis: bench.redis, filesDir });
  expect(refused).toMatchObject({ outcome: 'refused', reason: 'damaged' });
  expect(refused).toHaveProperty('sentence', expect.stringMatching(sentence));
  expect(await readdir(filesDir)).toEqual([]);
}

function flip(archive: Buffer, at: number): Buffer {
  const changed = Buffer.from(archive);
  changed[Math.floor(at)]! ^= 0x10;
  return changed;
}

async function swap(path: string, from: string, to: string): Promise<void> {
  const before = await readFile(path, 'utf8');
  expect(before).toContain(from);
  await writeFile(path, before.replace(from, to));
}

async function onePhoto(folder: string): Promise<string> {
  const found = await readdir(join(folder, 'files'), { recursive: true });
  return found.find((name) => name.length > 60)!;
}

async function changePhoto(folder: string): Promise<void> {
  await writeFile(join(folder, 'files', await onePhoto(folder)), 'another photo');
}

async function symlinkPhoto(folder: string): Promise<void> {
  const photo = join(folder, 'files', await onePhoto(folder));
  await rm(photo);
  await symlink('/etc/passwd', photo);
}
