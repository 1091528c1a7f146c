import { createHash, randomUUID } from 'node:crypto';
import { mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Redis } from 'ioredis';
import { z } from 'zod';
import type { Keys } from './keys.js';
import { DAY_MS } from './lifetimes.js';
import type { FilePut, Files } from './types.js';

const metaSchema = z.object({ size: z.number(), mime: z.string().optional(), name: z.string().optional() });

class OverLimit extends Error {}

/** Where files are written until they are whole; in the same file system as their place. */
const INCOMING = 'incoming';

/** Where the file of a hash lies under a folder of files. Throws on a string that is no SHA-256 in hex. */
export function filePath(filesDir: string, hash: string): string {
  if (!/^[0-9a-f]{64}$/.test(hash)) throw new Error(`Not the hash of a file: ${JSON.stringify(hash)}`);
  return join(filesDir, hash.slice(0, 2), hash);
}

/**
 * Files by their content. A file is whole on the disk before its name is, and has its name before Redis knows of it;
 * what a crash leaves behind is a temporary file, or a file that nobody knows of yet.
 * `openFile` is how a file is opened for writing. (Default: node's own.)
 */
export function makeFiles(redis: Redis, keys: Keys, filesDir: string, openFile = open): Files {
  const meta: Files['meta'] = async (hash) => {
    const stored = await redis.hget(keys.files, hash);
    if (stored === null) return undefined;
    const { size, mime, name } = metaSchema.parse(JSON.parse(stored));
    return { hash, size, ...(mime === undefined ? {} : { mime }), ...(name === undefined ? {} : { name }) };
  };

  let cleared: Promise<void> | undefined;

  return {
    meta,
    path: (hash) => filePath(filesDir, hash),
    put: async (content, { mime, name, limitBytes }) => {
      await (cleared ??= clearStale(join(filesDir, INCOMING)));
      const written = await writeWhole(filesDir, content, limitBytes, openFile);
      if (written.outcome === 'refused') return written;
      const { hash, size } = written;
      // The same content again keeps what was first known of it.
      await redis.hsetnx(keys.files, hash, JSON.stringify({ size, mime, name }));
      return { outcome: 'kept', hash, size, ...(mime === undefined ? {} : { mime }) };
    },
    bytes: async () => {
      const stored = await redis.hvals(keys.files);
      return stored.reduce((sum, value) => sum + metaSchema.parse(JSON.parse(value)).size, 0);
    },
  };
}

async function writeWhole(
  filesDir: string,
  content: Uint8Array | AsyncIterable<Uint8Array>,
  limitBytes: number,
  openFile: typeof open,
): Promise<FilePut> {
  const temporary = join(filesDir, INCOMING, randomUUID());
  try {
    await mkdir(dirname(temporary), { recursive: true });
    const { hash, size } = await writeSynced(temporary, content, limitBytes, openFile);
    const path = filePath(filesDir, hash);
    await mkdir(dirname(path), { recursive: true });
    await rename(temporary, path);
    await syncFolder(dirname(path));
    return { outcome: 'kept', hash, size };
  } catch (error) {
    await rm(temporary, { force: true });
    if (error instanceof OverLimit) return { outcome: 'refused', reason: 'too-big', limitBytes };
    if (isDiskFull(error)) return { outcome: 'refused', reason: 'disk-full' };
    throw error;
  }
}

async function writeSynced(
  path: string,
  content: Uint8Array | AsyncIterable<Uint8Array>,
  limitBytes: number,
  openFile: typeof open,
): Promise<{ hash: string; size: number }> {
  const digest = createHash('sha256');
  let size = 0;
  const file: FileHandle = await openFile(path, 'wx');
  try {
    for await (const chunk of content instanceof Uint8Array ? [content] : content) {
      size += chunk.byteLength;
      if (size > limitBytes) throw new OverLimit();
      digest.update(chunk);
      await file.writeFile(chunk);
    }
    await file.sync();
  } finally {
    await file.close();
  }
  return { hash: digest.digest('hex'), size };
}

/** Removes what a process that died a day ago or more left half written. */
async function clearStale(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    const found = await stat(join(folder, name)).catch(() => undefined);
    if (found !== undefined && Date.now() - found.mtimeMs > DAY_MS)
      await rm(join(folder, name), { force: true });
  }
}

/** A rename is sure to outlast a power cut only when its folder has been synced. */
async function syncFolder(path: string): Promise<void> {
  const folder = await open(path, 'r');
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

function isDiskFull(error: unknown): boolean {
  const code = (error as NodeJS.ErrnoException).code;
  return code === 'ENOSPC' || code === 'EDQUOT';
}
