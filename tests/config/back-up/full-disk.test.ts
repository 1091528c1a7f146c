import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backUpKeeper } from '../../../config/back-up/keep-back-up.js';
import { runCheck } from '../../../config/commands/archive/check.js';
import type { DeskBench } from '../../support/desk.js';
import { openDeskBench } from '../../support/desk.js';

const folder = mkdtempSync(join(tmpdir(), 'benchhand-full-'));
const isSmall = mountSmallDisk();
if (!isSmall)
  process.stderr.write('SKIPPED: a full disk under back-ups. Only root may mount the tmpfs it fills.\n');

function mountSmallDisk(): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=512k', 'tmpfs', folder], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** Writes until there is no room. */
function fill(): void {
  for (let part = 0; ; part += 1) {
    try {
      writeFileSync(join(folder, `fill-${part}`), Buffer.alloc(4096));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
      return;
    }
  }
}

describe.skipIf(!isSmall)('a disk that is full when the day’s back-up is written', () => {
  let bench: DeskBench;
  beforeAll(async () => {
    bench = await openDeskBench();
    await bench.say('new job: Ketterby 500 single, owner Mrs Dale');
  });
  afterAll(async () => {
    await bench.stop();
    execFileSync('umount', [folder]);
    rmSync(folder, { recursive: true, force: true });
  });

  it('fails by the system’s word for it, leaves nothing half written, and yesterday’s is whole', async () => {
    const { redis, filesDir } = bench;
    const keep = backUpKeeper({ redis: redis.connect(), shop: 'desk', filesDir, folder });
    const { name } = await keep('2026-03-01');
    fill();
    await expect(keep('2026-03-02')).rejects.toMatchObject({ code: 'ENOSPC' });
    const left = (await readdir(folder)).filter((each) => !each.startsWith('fill-'));
    expect(left).toEqual([name]);
    const said: string[] = [];
    const env = { BACKUP_DIR: folder, SHOP_KEY: 'desk' };
    expect(await runCheck({ args: [], env, say: (line) => void said.push(line) })).toBe(0);
    expect(said.join('\n')).toContain(`${name} is in order`);
  });
});
