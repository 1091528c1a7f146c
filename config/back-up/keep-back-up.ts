import { chmod, mkdir, readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Redis } from 'ioredis';
import type { KeepBackUp } from '../../src/desk/outside.js';
import { exportShop } from '../../src/record/index.js';
import { backUpName, daysKept, isUnfinished } from './names.js';
import { outlived } from './pruning.js';

export type BackUpPlace = { redis: Redis; shop: string; filesDir: string; folder: string };

/** Writes a day's back-up into the folder, over one of the same day, and prunes the shop's older ones. */
export function backUpKeeper({ redis, shop, filesDir, folder }: BackUpPlace): KeepBackUp {
  return async (day) => {
    // People's data lie in it: for this user alone, whatever the umask.
    await mkdir(folder, { recursive: true, mode: 0o700 });
    await clearBrokenOff(folder, shop);
    const name = backUpName(shop, day);
    const outPath = join(folder, name);
    const { counts } = await exportShop({ redis, shop, filesDir, outPath });
    await chmod(outPath, 0o600);
    for (const old of outlived(daysKept(await readdir(folder), shop))) {
      await rm(join(folder, backUpName(shop, old)), { force: true });
    }
    const { size: bytes } = await stat(outPath);
    return { name, bytes, events: counts.events, files: counts.files };
  };
}

/** What a back-up left behind whose process was killed. Only one is written at a time. */
async function clearBrokenOff(folder: string, shop: string): Promise<void> {
  for (const name of await readdir(folder)) {
    if (isUnfinished(name, shop)) await rm(join(folder, name), { recursive: true, force: true });
  }
}
