import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readFile } from 'node:fs/promises';
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

/** Unpacks an archive into an empty folder and checks every part of it. Throws DamagedArchive. */
export async function unpack(
  archivePath: string,
  stage: string,
): Promise<{ manifest: Manifest; hashes: string[] }> {
  const hashes = await unpackParts(archivePath, stage);
  const manifest = await readManifest(join(stage, MANIFEST));
  const { sha256 } = manifest.record;
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
  const hashes = await listParts(archivePath);
  await extract({
    ...{ file: archivePath, cwd: stage, strict: true, preserveOwner: false },
    filter: (path) => PART.test(path),
  });
  return hashes;
}

async function listParts(archivePath: string): Promise<string[]> {
  const hashes = new Set<string>();
  const strangers: string[] = [];
  const onReadEntry = ({ path, type }: { path: string; type: string }): void => {
    // Somebody may have packed it again, with the folders in it: they come about by themselves.
    if (type === 'Directory') return;
    const part = PART.exec(path);
    if (part === null || type !== 'File') strangers.push(path);
    else if (part[2] !== undefined) hashes.add(part[2]);
  };
  try {
    await list({ file: archivePath, strict: true, onReadEntry });
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    if (['EACCES', 'EMFILE', 'EIO'].includes(code)) throw error;
    if (code === 'ENOENT') throw new DamagedArchive(`There is no archive at ${archivePath}.`);
    throw damaged(error instanceof Error ? error.message : String(error));
  }
  const [stranger] = strangers;
  if (stranger !== undefined)
    throw damaged(`it has a part that is not Benchhand's: ${JSON.stringify(stranger)}`);
  return [...hashes];
}

async function readManifest(path: string): Promise<Manifest> {
  let found: unknown;
  try {
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
