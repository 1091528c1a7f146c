import { mkdir, readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backUpKeeper } from '../../../config/back-up/keep-back-up.js';
import { backUpName } from '../../../config/back-up/names.js';
import { runCheck } from '../../../config/commands/archive/check.js';
import { exportShop } from '../../../src/record/index.js';
import type { DeskBench } from '../../support/desk.js';
import { openDeskBench } from '../../support/desk.js';
import { useBench } from '../../record/support.js';

const folders = useBench();
let bench: DeskBench;

beforeAll(async () => {
  bench = await openDeskBench();
  await bench.say('new job: Ketterby 500 single, owner Mrs Dale, came in boxes, already stripped');
  await bench.say('supplier Harl & Dunn, chrome and nickel, 01632 960123');
  await bench.say('wheel rims rusty, send them for chrome, 40 quid');
  await bench.say('sent the wheel rims to Harl & Dunn, they say 20 April');
});
afterAll(() => bench.stop());

async function keeper(): Promise<{ folder: string; keep: (day: string) => Promise<{ name: string }> }> {
  const folder = join(await folders.folder(), 'backups');
  const { redis, filesDir } = bench;
  return { folder, keep: backUpKeeper({ redis: redis.connect(), shop: 'desk', filesDir, folder }) };
}

/** Runs the check; gives its exit code and what it said. */
async function check(folder: string, ...args: string[]): Promise<{ code: number; said: string }> {
  const said: string[] = [];
  const env = { BACKUP_DIR: folder, SHOP_KEY: 'desk' };
  const code = await runCheck({ args, env, say: (line) => void said.push(line) });
  return { code, said: said.join('\n') };
}

describe('a back-up', () => {
  it('is written for its owner’s eyes, over one of the same day, and what broke off before is cleared away', async () => {
    const { folder, keep } = await keeper();
    await mkdir(join(folder, `${backUpName('desk', '2026-03-01')}.part-aB3dE6`), { recursive: true });
    await writeFile(join(folder, 'letter.txt'), 'not ours');
    await keep('2026-03-02');
    const again = await keep('2026-03-02');
    expect((await readdir(folder)).sort()).toEqual([again.name, 'letter.txt'].sort());
    expect((await stat(join(folder, again.name))).mode & 0o077).toBe(0);
  });

  it('is pruned by the shop’s own ones alone', async () => {
    const { folder, keep } = await keeper();
    await mkdir(folder);
    const others = backUpName('desk-2', '2025-01-01');
    for (const day of ['2025-01-01', '2025-01-02'])
      await writeFile(join(folder, backUpName('desk', day)), '');
    await writeFile(join(folder, others), '');
    for (let day = 10; day < 20; day += 1) await keep(`2026-03-${day}`);
    const names = await readdir(folder);
    expect(names).toContain(others);
    expect(names).toContain(backUpName('desk', '2025-01-02'));
    expect(names).not.toContain(backUpName('desk', '2025-01-01'));
    expect(names.filter((name) => name.includes('2026-03')).sort()[1]).toBe(backUpName('desk', '2026-03-13'));
  });

  it('that can’t be written says why by the system’s code', async () => {
    const folder = join(await folders.folder(), 'a file');
    await writeFile(folder, '');
    const keep = backUpKeeper({
      redis: bench.redis.connect(),
      shop: 'desk',
      filesDir: bench.filesDir,
      folder,
    });
    await expect(keep('2026-03-02')).rejects.toMatchObject({ code: 'EEXIST' });
  });
});

describe('npm run check', () => {
  it('restores the newest back-up aside and finds all of it', async () => {
    const { folder, keep } = await keeper();
    await keep('2026-03-01');
    await bench.say('front tyre cracked, new one');
    const { name } = await keep('2026-03-02');
    const streams = await bench.record.streams();
    const events = (await Promise.all(streams.map((each) => bench.record.events(each)))).reduce(
      (sum, each) => sum + each.events.length,
      0,
    );
    const { code, said } = await check(folder);
    expect(said).toContain(
      `${join(folder, name)} is in order: ${events} events in ${streams.length} streams`,
    );
    expect(code).toBe(0);
  });

  it('fails where there is none, where it is damaged, and where it is asked for wrongly', async () => {
    const empty = await folders.folder();
    expect(await check(empty)).toMatchObject({
      code: 1,
      said: `There is no back-up of the shop 'desk' in ${empty}.`,
    });
    const { folder, keep } = await keeper();
    const path = join(folder, (await keep('2026-03-02')).name);
    const whole = await readFile(path);
    await writeFile(path, whole.subarray(0, whole.length - 30));
    expect(await check(folder)).toMatchObject({
      code: 1,
      said: expect.stringContaining('cannot be used') as string,
    });
    expect(await check(folder, '--help')).toMatchObject({ code: 2 });
  });

  it('finds an event that nothing understands, a stream with a hole, and a file that is gone', async () => {
    const redis = bench.redis.connect();
    const prefix = 'benchhand:{desk}:events:';
    const outPath = join(await folders.folder(), 'shop.tar.gz');
    const { version } = await bench.record.events('shop');
    const event = JSON.stringify({
      type: 'wheel-invented',
      schema: 1,
      data: {},
      at: 1,
      by: 'x',
      command: 'c',
    });
    await redis.xadd(`${prefix}shop`, `${version + 1}-0`, 'event', event);
    const contact = 'contact-mechanic-1';
    await redis.xadd(
      `${prefix}${contact}`,
      '7-0',
      'event',
      JSON.stringify({
        type: 'voice-received',
        schema: 1,
        data: { unique: 'u', handle: 'h' },
        at: 1,
        by: 'x',
        command: 'c',
      }),
    );
    await redis.sadd('benchhand:{desk}:streams', contact);
    const job = (await bench.record.streams()).find((each) => each.startsWith('job-')) ?? 'job-1';
    const fetched = { type: 'attachment-fetched', schema: 1, data: { unique: 'u', hash: 'a'.repeat(64) } };
    const at = (await bench.record.events(job)).version + 1;
    await redis.xadd(
      `${prefix}${job}`,
      `${at}-0`,
      'event',
      JSON.stringify({ ...fetched, at: 1, by: 'x', command: 'c' }),
    );
    await exportShop({ redis, shop: 'desk', filesDir: bench.filesDir, outPath });
    const { code, said } = await check('/nowhere', outPath);
    expect(code).toBe(1);
    expect(said).toContain(`shop: event ${version + 1} ('wheel-invented') is not in order.`);
    expect(said).toContain(`${contact}: something is missing before event 7.`);
    expect(said).toContain(`the file ${'a'.repeat(64)} is not there whole.`);
  });
});
