import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Scene } from './scene.js';
import { eventsOf, jobStream, openScene } from './scene.js';

const folder = mkdtempSync(join(tmpdir(), 'benchhand-full-'));
const isSmall = mount('size=96k');
if (!isSmall) {
  process.stderr.write(
    'SKIPPED: a full disk under FILES_DIR. Only root may mount the small tmpfs that this test fills; ' +
      'the same at the one place where files are written, by /dev/full, is in tests/record/files.test.ts.\n',
  );
}

/** A small disk of its own under the folder, or the same one with another size; false where that is not allowed. */
function mount(options: string): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', options, 'tmpfs', folder], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** Writes until there is no room. */
function fill(): void {
  const file = openSync(join(folder, 'fill'), 'w');
  try {
    for (;;) writeSync(file, Buffer.alloc(4096));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
  } finally {
    closeSync(file);
  }
}

/** More than the disk holds; each photo another, since files are kept by their content. */
const photo = (fill: number): Buffer => Buffer.alloc(300_000, fill);

describe.skipIf(!isSmall)('the disk under FILES_DIR is full', () => {
  let shop: Scene;
  beforeAll(async () => {
    shop = await openScene('Friday 13 March', { filesDir: folder });
  });
  afterAll(async () => {
    await shop.stop();
    execFileSync('umount', [folder]);
    rmSync(folder, { recursive: true, force: true });
  });

  const lost = async (): Promise<unknown[]> => eventsOf(shop, await jobStream(shop), 'attachment-lost');

  it('a photo’s words are kept and answered; of the photo it is recorded that there was no room, and nothing of it stays', async () => {
    await shop.mechanic.photo(photo(1), { caption: 'left footrest bent' });
    await shop.driver.quiet();
    expect(shop.mechanic.last()?.text).toMatch(/left footrest: bent/);
    expect(await lost()).toMatchObject([{ why: 'no-room' }]);
    expect(await readdir(join(folder, 'incoming'))).toEqual([]);
    expect(await shop.say(shop.mechanic, 'show me the photos of the footrest')).toMatch(/room/);
  });

  it('what needs no disk goes on, and a picture that can’t be drawn is said so', async () => {
    expect(await shop.say(shop.mechanic, 'seat torn')).toMatch(/seat: split/);
    fill();
    expect(await shop.say(shop.mechanic, 'timeline')).toMatch(/could not draw/);
    expect(shop.warnings.filter((line) => line.includes('could not be handled'))).toEqual([]);
  });

  it('“are you well?” puts the full disk first', async () => {
    const [first, ...lines] = (await shop.say(shop.mechanic, 'are you well?')).split('\n');
    expect(first).toMatch(/wants? seeing to/);
    expect(lines.join('\n')).toMatch(/The disk with the pictures has/);
  });

  it('with room again, photos are kept again', async () => {
    rmSync(join(folder, 'fill'));
    expect(mount('remount,size=4m')).toBe(true);
    await shop.mechanic.photo(photo(2), { caption: 'right footrest bent' });
    await shop.driver.quiet();
    expect(await eventsOf(shop, await jobStream(shop), 'attachment-fetched')).toHaveLength(1);
    expect(await lost()).toHaveLength(1);
  });
});
