import { createCipheriv, createHash } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { mkdtemp, readdir, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { createGzip } from 'node:zlib';
import { create } from 'tar';
import { describe, expect, it } from 'vitest';
import { restoreShop } from '../../src/record/index.js';
import { everything } from '../record/archive-support.js';
import { anyShop, useBench } from '../record/support.js';

const bench = useBench();
/** No back-up of a shop shrinks so far. */
const RATIO = 200;

describe('an archive made to do harm', () => {
  it('that unpacks to far more than it takes is refused before anything of it is on the disk', async () => {
    const folder = await bench.folder();
    const archive = join(folder, 'bomb.tar.gz');
    const inside = await bench.folder();
    // Four hundred times its archive: within what the reader of archives itself would let pass (a thousand).
    const stretch = Buffer.concat([noise(100), Buffer.alloc(65_436)]);
    await writeFile(
      join(inside, 'record.jsonl'),
      Array.from({ length: 1_000 }, () => stretch),
    );
    await create({ file: archive, cwd: inside, gzip: true }, ['record.jsonl']);
    expect((await stat(archive)).size).toBeLessThan(65_536_000 / RATIO);
    await refused(archive, /ratio/);
  });

  it('that claims to hold more than it does is refused', async () => {
    const archive = join(await bench.folder(), 'liar.tar');
    await writeFile(archive, tarHeader('record.jsonl', 0o77777777777));
    await refused(archive, /cannot be used/);
  });

  it('whose record is one endless line is refused', async () => {
    const folder = await mkdtemp(join(await bench.folder(), 'line-'));
    // Noise that doesn't shrink, so that the line gets past the bound on shrinking.
    const line = noise(40_000_000).toString('hex');
    await writeFile(join(folder, 'record.jsonl'), line);
    await writeFile(join(folder, 'manifest.json'), manifestFor(line));
    const archive = join(await bench.folder(), 'line.tar.gz');
    await create({ file: archive, cwd: folder, gzip: { level: 1 } }, ['manifest.json', 'record.jsonl']);
    await refused(archive, /a line that no record has/);
  });

  it.each([
    ['../../outside', 'above'],
    ['/tmp/benchhand-outside', 'absolute'],
    ['files/../../outside', 'through files'],
    [`files/aa/${'a'.repeat(64)}/../../../outside`, 'through a hash'],
    ['files/aa/..', 'to its folder'],
    ['record.jsonl\0.sh', 'with a zero byte'],
  ])('with the path %j is refused, and nothing is written (%s)', async (path) => {
    const archive = join(await bench.folder(), 'path.tar.gz');
    const plain = `${archive}.tar`;
    await writeFile(plain, Buffer.concat([tarHeader(path, 4), block('evil'), Buffer.alloc(1024)]));
    await pipeline(createReadStream(plain), createGzip(), createWriteStream(archive));
    await refused(archive, /cannot be used/);
  });
});

/** Bytes that look random and are always the same. */
function noise(bytes: number): Buffer {
  return createCipheriv('aes-128-ctr', Buffer.alloc(16, 7), Buffer.alloc(16)).update(Buffer.alloc(bytes));
}

async function refused(archivePath: string, sentence: RegExp): Promise<void> {
  const above = await bench.folder();
  const filesDir = join(above, 'files');
  const shop = anyShop();
  const restored = await restoreShop({ archivePath, redis: bench.redis, filesDir, shop });
  expect(restored).toMatchObject({ outcome: 'refused', reason: 'damaged' });
  expect(restored).toHaveProperty('sentence', expect.stringMatching(sentence));
  expect(await readdir(above)).toEqual(['files']);
  expect(await readdir(filesDir)).toEqual([]);
  expect(await everything(bench, shop)).toEqual({});
}

function manifestFor(record: string): string {
  return JSON.stringify({
    ...{ format: 'benchhand-shop', schema: 1, shop: 'x', takenAt: '2026-03-02T09:00:00Z' },
    record: { sha256: createHash('sha256').update(record).digest('hex'), bytes: record.length, rows: 1 },
    streams: {},
    counts: { streams: 0, events: 0, files: 0, fileBytes: 0 },
    missingFiles: [],
  });
}

const block = (text: string): Buffer => Buffer.concat([Buffer.from(text), Buffer.alloc(512 - text.length)]);

/** A header of the ustar format: POSIX.1-1988, 10.1.1. */
function tarHeader(path: string, size: number): Buffer {
  const header = Buffer.alloc(512);
  header.write(path.slice(0, 100), 0);
  header.write('0000644\0', 100);
  header.write('0000000\0', 108);
  header.write('0000000\0', 116);
  header.write(`${size.toString(8).padStart(11, '0')} `, 124);
  header.write('00000000000 ', 136);
  header.write('        ', 148);
  header.write('0', 156);
  header.write('ustar\x0000', 257);
  const sum = header.reduce((total, byte) => total + byte, 0);
  header.write(`${sum.toString(8).padStart(6, '0')}\0 `, 148);
  return header;
}
