import { createHash } from 'node:crypto';
import { mkdtemp, open, rename, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import type { Redis } from 'ioredis';
import { create } from 'tar';
import { filePath } from '../files.js';
import type { Keys } from '../keys.js';
import { makeKeys } from '../keys.js';
import type { Cut } from './cut.js';
import { takeCut } from './cut.js';
import { INBOX_KINDS, isBeforeCut, namedRows, scannedRows } from './dump.js';
import type { Manifest, Row } from './format.js';
import { ARCHIVE_SCHEMA, FILES, MANIFEST, RECORD } from './format.js';

export type ExportOptions = { redis: Redis; shop: string; filesDir: string; outPath: string };

/**
 * Writes everything of a shop, files too, to one .tar.gz. The shop may be at work meanwhile: the archive shows one moment of
 * it. It gets its name only once it is whole. Gives the manifest. Throws when Redis or the disk fails.
 */
export async function exportShop({ redis, shop, filesDir, outPath }: ExportOptions): Promise<Manifest> {
  const stage = await mkdtemp(`${resolve(outPath)}.part-`);
  try {
    const keys = makeKeys(shop);
    const { cut, record } = await writeRecord(join(stage, RECORD), redis, keys);
    const files = await findFiles(redis, keys, filesDir);
    const manifest = describe(shop, cut, record, files);
    await writeFile(join(stage, MANIFEST), `${JSON.stringify(manifest, null, 2)}\n`);
    await symlink(resolve(filesDir), join(stage, FILES));
    const archive = join(stage, 'archive.tar.gz');
    const parts = [MANIFEST, RECORD, ...files.found.map((hash) => filePath(FILES, hash))];
    await create({ file: archive, cwd: stage, gzip: true, portable: true, strict: true }, parts);
    await syncFile(archive);
    await rename(archive, outPath);
    await syncFile(dirname(resolve(outPath)));
    return manifest;
  } finally {
    await rm(stage, { recursive: true, force: true });
  }
}

/**
 * The order matters when the shop is at work. What became of updates comes before the cut: an update that finishes later
 * is then handled again, and its commands are seen. All else comes after it: people, words and files that the events speak of.
 */
async function* rows(redis: Redis, keys: Keys, onCut: (cut: Cut) => void): AsyncGenerator<Row> {
  yield* scannedRows(redis, keys, (kind) => INBOX_KINDS.includes(kind));
  const cut = await takeCut(redis, keys);
  onCut(cut);
  yield* namedRows(redis, keys, cut);
  for await (const row of scannedRows(redis, keys, (kind) => !INBOX_KINDS.includes(kind))) {
    if (isBeforeCut(row, cut)) yield row;
  }
}

async function writeRecord(
  path: string,
  redis: Redis,
  keys: Keys,
): Promise<{ cut: Cut; record: Manifest['record'] }> {
  const digest = createHash('sha256');
  const record = { bytes: 0, rows: 0 };
  let cut: Cut | undefined;
  const file = await open(path, 'wx');
  try {
    for await (const row of rows(redis, keys, (taken) => (cut = taken))) {
      const line = Buffer.from(`${JSON.stringify(row)}\n`);
      digest.update(line);
      record.bytes += line.length;
      record.rows += 1;
      await file.writeFile(line);
    }
  } finally {
    await file.close();
  }
  if (cut === undefined) throw new Error('The cut was not taken');
  return { cut, record: { sha256: digest.digest('hex'), ...record } };
}

type FoundFiles = { found: string[]; missing: string[]; bytes: number };

async function findFiles(redis: Redis, keys: Keys, filesDir: string): Promise<FoundFiles> {
  const files: FoundFiles = { found: [], missing: [], bytes: 0 };
  for (const hash of (await redis.hkeys(keys.files)).sort()) {
    const size = await stat(filePath(filesDir, hash)).then(
      (found) => found.size,
      () => undefined,
    );
    if (size === undefined) {
      files.missing.push(hash);
    } else {
      files.found.push(hash);
      files.bytes += size;
    }
  }
  return files;
}

function describe(shop: string, cut: Cut, record: Manifest['record'], files: FoundFiles): Manifest {
  const versions = [...cut.versions.values()];
  return {
    format: 'benchhand-shop',
    schema: ARCHIVE_SCHEMA,
    shop,
    takenAt: new Date(cut.micros / 1000).toISOString(),
    record,
    streams: Object.fromEntries(cut.versions),
    counts: {
      streams: versions.length,
      events: versions.reduce((sum, version) => sum + version, 0),
      files: files.found.length,
      fileBytes: files.bytes,
    },
    missingFiles: files.missing,
  };
}

async function syncFile(path: string): Promise<void> {
  const file = await open(path, 'r');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}
