import { mkdir, mkdtemp, rename, rm } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import type { Redis } from 'ioredis';
import { filePath } from '../files.js';
import { kindOf, makeKeys } from '../keys.js';
import type { Keys } from '../keys.js';
import type { Manifest } from './format.js';
import { FILES, RECORD } from './format.js';
import { writeRows } from './rows.js';
import { DamagedArchive, unpack } from './unpack.js';

export type RestoreOptions = {
  archivePath: string;
  redis: Redis;
  filesDir: string;
  /** Restores under another shop's id, to look at a back-up aside. (Default: the archive's own.) */
  shop?: string;
};

export type Restored =
  | { outcome: 'restored'; shop: string; manifest: Manifest }
  | { outcome: 'refused'; reason: 'not-empty' | 'damaged'; sentence: string };

/**
 * Puts an archive back into a Redis that has nothing of the shop. The archive is checked whole before anything is written; a
 * restore that was interrupted is begun again. The service must be stopped, and only one restore may run. Throws when
 * Redis or the disk fails.
 */
export async function restoreShop({ archivePath, redis, filesDir, shop }: RestoreOptions): Promise<Restored> {
  await mkdir(filesDir, { recursive: true });
  const stage = await mkdtemp(join(resolve(filesDir), 'restore-'));
  try {
    const { manifest, hashes } = await unpack(archivePath, stage);
    const keys = makeKeys(shop ?? manifest.shop);
    if (!(await makeRoom(redis, keys))) {
      const sentence = `The shop '${shop ?? manifest.shop}' already has a record in this Redis. Restore into an empty one; nothing was changed.`;
      return { outcome: 'refused', reason: 'not-empty', sentence };
    }
    for (const hash of hashes) await keepFile(filePath(join(stage, FILES), hash), filePath(filesDir, hash));
    await writeRows(redis, keys, join(stage, RECORD));
    await redis.del(keys.restoring);
    return { outcome: 'restored', shop: shop ?? manifest.shop, manifest };
  } catch (error) {
    if (!(error instanceof DamagedArchive)) throw error;
    return { outcome: 'refused', reason: 'damaged', sentence: error.message };
  } finally {
    await rm(stage, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** Whether a restore was begun for the shop and never ended: its record is not whole then. */
export async function isHalfRestored(redis: Redis, shop: string): Promise<boolean> {
  return (await redis.exists(makeKeys(shop).restoring)) === 1;
}

/** Marks a restore as begun, and clears away what an interrupted one left. False when the shop has a record. */
async function makeRoom(redis: Redis, keys: Keys): Promise<boolean> {
  if ((await redis.exists(keys.restoring)) === 0) {
    for await (const found of recordKeys(redis, keys)) if (found.length > 0) return false;
    await redis.set(keys.restoring, 1);
    return true;
  }
  for await (const found of recordKeys(redis, keys)) {
    const left = found.filter((key) => key !== keys.restoring);
    if (left.length > 0) await redis.unlink(...left);
  }
  return true;
}

async function* recordKeys(redis: Redis, keys: Keys): AsyncGenerator<string[]> {
  let cursor = '0';
  do {
    const [next, found] = await redis.scan(cursor, 'MATCH', `${keys.prefix}*`, 'COUNT', 1000);
    cursor = next;
    yield found.filter((key) => kindOf(keys.prefix, key) !== undefined);
  } while (cursor !== '0');
}

async function keepFile(from: string, to: string): Promise<void> {
  await mkdir(dirname(to), { recursive: true });
  await rename(from, to);
}
