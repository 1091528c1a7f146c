import { createHash } from 'node:crypto';
import { mkdir, open, readdir, readFile, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { expect, it } from 'vitest';
import { makeFiles } from '../../src/record/files.js';
import { makeKeys } from '../../src/record/keys.js';
import { anyShop, useBench } from './support.js';

const bench = useBench();
const limitBytes = 1000;
// FIPS 180-2, appendix B.1: the SHA-256 of 'abc'.
const ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

async function everyFile(folder: string): Promise<string[]> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true });
  return found.filter((entry) => entry.isFile()).map((entry) => entry.name);
}

it('keeps a file by the hash of its content, once, with what was first known of it', async () => {
  const filesDir = await bench.folder();
  const { files } = bench.open({ filesDir });
  const kept = await files.put(Buffer.from('abc'), {
    mime: 'image/jpeg',
    name: '../../fork.jpg',
    limitBytes,
  });
  expect(kept).toEqual({ outcome: 'kept', hash: ABC, size: 3, mime: 'image/jpeg' });
  await files.put(Readable.from([Buffer.from('a'), Buffer.from('bc')]), { name: 'other', limitBytes });
  expect(await files.meta(ABC)).toEqual({ hash: ABC, size: 3, mime: 'image/jpeg', name: '../../fork.jpg' });
  expect(files.path(ABC)).toBe(join(filesDir, 'ba', ABC));
  expect(await readFile(files.path(ABC), 'utf8')).toBe('abc');
  await files.put(new Uint8Array(500), { limitBytes });
  expect(await files.bytes()).toBe(503);
  expect(await everyFile(filesDir)).toHaveLength(2);
});

it('refuses a file over the limit, leaving nothing, and reads no further than it must', async () => {
  const filesDir = await bench.folder();
  const { files } = bench.open({ filesDir });
  let read = 0;
  const endless = Readable.from(
    (function* () {
      for (;;) yield Buffer.alloc((read += 100) && 100);
    })(),
    { highWaterMark: 1 },
  );
  expect(await files.put(endless, { limitBytes })).toEqual({
    outcome: 'refused',
    reason: 'too-big',
    limitBytes,
  });
  expect(read).toBeLessThan(2 * limitBytes);
  expect(endless.destroyed).toBe(true);
  expect(await files.put(Buffer.alloc(1001), { limitBytes })).toMatchObject({ reason: 'too-big' });
  expect(await files.put(Buffer.alloc(1000), { limitBytes })).toMatchObject({ outcome: 'kept' });
  expect(await everyFile(filesDir)).toHaveLength(1);
  expect(await files.bytes()).toBe(1000);
});

it('says that the disk is full, as a value', async () => {
  const filesDir = await bench.folder();
  const keys = makeKeys(anyShop());
  // Linux answers every write to /dev/full with ENOSPC: full(4).
  const files = makeFiles(bench.redis, keys, filesDir, () => open('/dev/full', 'w'));
  const put = await files.put(Buffer.from('abc'), { limitBytes });
  expect(put).toEqual({ outcome: 'refused', reason: 'disk-full' });
  expect(await everyFile(filesDir)).toEqual([]);
  expect(await files.meta(ABC)).toBeUndefined();
});

it('throws when the source fails midway, leaving nothing', async () => {
  const filesDir = await bench.folder();
  const { files } = bench.open({ filesDir });
  const broken = Readable.from(
    (function* () {
      yield Buffer.from('a');
      throw new Error('the line went dead');
    })(),
  );
  await expect(files.put(broken, { limitBytes })).rejects.toThrow('the line went dead');
  expect(await everyFile(filesDir)).toEqual([]);
});

it('names no path outside its folder', () => {
  const { files } = bench.open();
  for (const hash of ['../../etc/passwd', ABC.toUpperCase(), `${ABC}0`, '']) {
    expect(() => files.path(hash)).toThrow('Not the hash');
  }
});

it('hashes as node does, however the content is cut', async () => {
  const { files } = bench.open({ filesDir: await bench.folder() });
  const content = Buffer.from(Array.from({ length: 700 }, (_, n) => n % 251));
  const pieces = Readable.from([content.subarray(0, 1), content.subarray(1, 400), content.subarray(400)]);
  const expected = createHash('sha256').update(content).digest('hex');
  expect(await files.put(pieces, { limitBytes })).toMatchObject({ hash: expected, size: 700 });
});

it('clears away what was left half written days ago, and leaves what may still be being written', async () => {
  const filesDir = await bench.folder();
  const incoming = join(filesDir, 'incoming');
  await mkdir(incoming);
  for (const name of ['old', 'new']) await writeFile(join(incoming, name), 'half');
  const twoDaysAgo = Date.now() / 1000 - 2 * 86_400;
  await utimes(join(incoming, 'old'), twoDaysAgo, twoDaysAgo);
  await bench.open({ filesDir }).files.put(Buffer.from('abc'), { limitBytes });
  expect(await readdir(incoming)).toEqual(['new']);
});
