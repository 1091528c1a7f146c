import { execFile } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import { access, mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { VoiceFiles } from '../../workers/own-voice.js';
import type { Logger } from 'pino';
import type { SpeechTools, VoiceFitter } from '../setup/find-speech.mjs';
import { mixtureWeightsOf } from './mixture-weights.js';

const run = promisify(execFile);
const LIMIT_MS = 30_000;

/**
 * What fitting a voice needs of the acoustic model beside the files that it comes with, made where it isn't there yet into a folder
 * below `folder` that is named by the model. It comes there by one rename.
 */
export async function voiceFiles(
  acoustics: string,
  fitter: VoiceFitter,
  folder: string,
): Promise<VoiceFiles> {
  const dump = await readFile(join(acoustics, 'sendump'));
  const own = join(folder, `acoustics-${createHash('sha256').update(dump).digest('hex').slice(0, 16)}`);
  if (!(await isThere(own))) await make(own, dump, acoustics, fitter);
  return { ...fitter, ...filesIn(own), acoustics };
}

/** The same, made at the first asking and kept, tried again where that failed; null where nothing fits a voice here, or the files can't be made. */
export function keepVoiceFiles(
  { acoustics, fitter }: SpeechTools,
  folder: string,
  log: Logger,
): () => Promise<VoiceFiles | null> {
  let kept: Promise<VoiceFiles | null> | null = null;
  if (fitter === null) return () => Promise.resolve(null);
  return () =>
    (kept ??= voiceFiles(acoustics, fitter, folder).catch((error: unknown) => {
      log.warn({ err: error }, 'the recogniser cannot be fitted to voices');
      kept = null;
      return null;
    }));
}

const filesIn = (folder: string) => ({
  phones: join(folder, 'phones.mdef'),
  weights: join(folder, 'mixture_weights'),
  fillers: join(folder, 'fillers.dic'),
});

const isThere = (folder: string): Promise<boolean> =>
  access(folder).then(
    () => true,
    () => false,
  );

async function make(folder: string, dump: Buffer, acoustics: string, fitter: VoiceFitter): Promise<void> {
  const work = `${folder}.${randomUUID()}`;
  const files = filesIn(work);
  await mkdir(work, { recursive: true });
  try {
    await run(fitter.definitions, ['-text', join(acoustics, 'mdef'), files.phones], { timeout: LIMIT_MS });
    await writeFile(files.weights, mixtureWeightsOf(dump));
    await writeFile(files.fillers, '<s> SIL\n</s> SIL\n<sil> SIL\n');
    await rename(work, folder);
  } catch (error) {
    // Another process may have made the same meanwhile.
    if (!(await isThere(folder))) throw error;
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}
