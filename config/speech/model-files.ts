import { execFile } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { access, mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import type { SpeechModel } from '../../src/hearing/speech/model.js';
import type { ModelFiles } from '../../workers/pocketsphinx.js';

const run = promisify(execFile);
const COMPILE_LIMIT_MS = 60_000;

export const filesIn = (folder: string): ModelFiles => ({
  languageModel: join(folder, 'language.lm.bin'),
  dictionary: join(folder, 'words.dic'),
});

/** Whether a whole model lies in the folder: it comes there by one rename. */
export async function isThere(folder: string): Promise<boolean> {
  return access(filesIn(folder).dictionary).then(
    () => true,
    () => false,
  );
}

/** Writes a model into a folder, all of it or nothing: the language model in the binary form that pocketsphinx loads fastest. */
export async function writeModel(model: SpeechModel, compiler: string, folder: string): Promise<void> {
  const work = `${folder}.${randomUUID()}`;
  const files = filesIn(work);
  await mkdir(work, { recursive: true });
  try {
    const arpa = join(work, 'language.arpa');
    await writeFile(arpa, model.languageModel);
    await writeFile(files.dictionary, model.dictionary);
    await run(compiler, ['-i', arpa, '-o', files.languageModel], { timeout: COMPILE_LIMIT_MS });
    await rm(arpa);
    await mkdir(dirname(folder), { recursive: true });
    await rename(work, folder);
  } catch (error) {
    // Another process may have made the same model meanwhile.
    if (!(await isThere(folder))) throw error;
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}
