import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readFile, stat, statfs } from 'node:fs/promises';
import { join } from 'node:path';
import { extract, list } from 'tar';
import { z } from 'zod';
import { filePath } from '../files.js';
import type { Manifest } from './format.js';
import { ARCHIVE_SCHEMA, FILES, MANIFEST, RECORD, manifestSchema } from './format.js';

/** Says in one sentence why an archive cannot be used. */
export class DamagedArchive extends Error {
  override name = 'DamagedArchive';
}

const PART = /^(?:manifest\.json|record\.jsonl|files\/([0-9a-f]{2})\/(\1[0-9a-f]{62}))$/;

/** Deflate can blow one byte up to a thousand (RFC 1951); a record comes to a few dozen, pictures to one. */
const RATIO_AT_MOST = 200;
const MANIFEST_AT_MOST_BYTES = 64 * 1024 * 1024;
/** A row holds some hundred entries, each some thousand characters at most. */
const LINE_AT_MOST_BYTES = 64 * 1024 * 1024;

/** Unpacks an archive into an empty folder and checks every part of it. Throws DamagedArchive. */
export async function unpack(
  archivePath: string,
  stage: string,
): Promise<{ manifest: Manifest; hashes: string[] }> {
  const hashes = await unpackParts(archivePath, stage);
  const manifest = await readManifest(join(stage, MANIFEST));
  const { sha256 } = manifest.record;
  if (await hasEndlessLine(join(stage, RECORD))) throw damaged(`${RECORD} has a line that no record has`);
  if ((await sha256Of(join(stage, RECORD))) !== sha256) throw damaged(`${RECORD} is not what was written`);
  for (const hash of hashes) {
    const found = await sha256Of(filePath(join(stage, FILES), hash));
    if (found !== hash) throw damaged(`the file ${hash} is not what was written`);
  }
  const { files } = manifest.counts;
  if (hashes.length !== files) throw damaged(`it has ${hashes.length} files and should have ${files}`);
  return { manifest, hashes };
}

/** Unpacks the parts that an archive of ours may have, and gives the hashes of its files. */
async function unpackParts(archivePath: string, stage: string): Promise<string[]> {
  // Read through before anything is unpacked: an unpacking that fails goes on writing for a while.
  const { hashes, bytes } = await listParts(archivePath);
  const { bavail, bsize } = await statfs(stage);
  if (bytes > bavail * bsize) throw damaged('there is no room on the disk for what is in it');
  await extract({
    ...{ file: archivePath, cwd: stage, strict: true, preserveOwner: false },
    maxDecompressionRatio: RATIO_AT_MOST,
    filter: (path) => PART.test(path),
  });
  return hashes;
}

/** Reads an archive through without keeping anything of it: the hashes of its files, and what it will come to on the disk. */
async function listParts(archivePath: string): Promise<{ hashes: string[]; bytes: number }> {
  const hashes = new Set<string>();
  const strangers: string[] = [];
  let bytes = 0;
  const onReadEntry = ({ path, type, size }: { path: string; type: string; size: number }): void => {
    bytes += size;
    // Somebody may have packed it again, with the folders in it: they come about by themselves.
    if (type === 'Directory') return;
    const part = PART.exec(path);
    if (part === null || type !== 'File') strangers.push(path);
    else if (part[2] !== undefined) hashes.add(part[2]);
  };
  try {
    await list({ file: archivePath, strict: true, maxDecompressionRatio: RATIO_AT_MOST, onReadEntry });
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    if (['EACCES', 'EMFILE', 'EIO'].includes(code)) throw error;
    if (code === 'ENOENT') throw new DamagedArchive(`There is no archive at ${archivePath}.`);
    throw damaged(error instanceof Error ? error.message : String(error));
  }
  const [stranger] = strangers;
  if (stranger !== undefined)
    throw damaged(`it has a part that is not Benchhand's: ${JSON.stringify(stranger)}`);
  return { hashes: [...hashes], bytes };
}

async function readManifest(path: string): Promise<Manifest> {
  let found: unknown;
  try {
    if ((await stat(path)).size > MANIFEST_AT_MOST_BYTES) throw new Error('too long');
    found = JSON.parse(await readFile(path, 'utf8'));
  } catch {
    throw damaged(`${MANIFEST} is missing or cannot be read`);
  }
  const schema = z.object({ schema: z.number() }).safeParse(found).data?.schema ?? 0;
  if (schema > ARCHIVE_SCHEMA) {
    throw new DamagedArchive(
      `The archive was written by a newer Benchhand (layout ${schema}; this one reads up to ${ARCHIVE_SCHEMA}). Nothing was changed.`,
    );
  }
  const parsed = manifestSchema.safeParse(found);
  if (!parsed.success) throw damaged(`${MANIFEST} is not in order: ${z.prettifyError(parsed.error)}`);
  return parsed.data;
}

/** Whether a file has a line too long to be read into memory; one that is not there has none. */
async function hasEndlessLine(path: string): Promise<boolean> {
  let length = 0;
  try {
    for await (const chunk of createReadStream(path) as AsyncIterable<Buffer>) {
      const first = chunk.indexOf(10);
      if (length + (first === -1 ? chunk.length : first) > LINE_AT_MOST_BYTES) return true;
      length = first === -1 ? length + chunk.length : chunk.length - 1 - chunk.lastIndexOf(10);
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
  return false;
}

async function sha256Of(path: string): Promise<string | null> {
  const digest = createHash('sha256');
  try {
    for await (const chunk of createReadStream(path)) digest.update(chunk as Buffer);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
  return digest.digest('hex');
}

function damaged(why: string): DamagedArchive {
  return new DamagedArchive(`The archive cannot be used: ${why}. Nothing was changed.`);
}
