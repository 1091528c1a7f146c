import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createHash } from 'node:crypto';
import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Logger } from 'pino';
import type { ShopWords } from '../../src/hearing/speech/shop-words.js';
import { patterns } from '../../src/hearing/speech/patterns.js';
import { lexicon } from '../../src/trade/lexicon/load.js';
import { phrases } from '../../src/trade/lexicon/phrases.js';
import type { ModelFiles } from '../../workers/pocketsphinx.js';
import { filesIn, isThere } from './model-files.js';
import { projectRoot } from '../setup/project.mjs';

/** Beside this file where both are compiled; where this is run from its source, the one in dist. */
const MAKE_MODEL = import.meta.url.endsWith('.js')
  ? fileURLToPath(new URL('./make-model.js', import.meta.url))
  : join(projectRoot, 'dist/config/speech/make-model.js');

export type ShopModelDeps = {
  /** The shop's words as the record has them now. */
  words: () => Promise<ShopWords>;
  /** Makes the model of these words into a folder, whole or not at all. */
  make: (words: ShopWords, folder: string) => Promise<void>;
  /** Where models are kept, each in a folder named by what it is made of. */
  folder: string;
  log: Logger;
};

export type ShopModel = {
  /** The model of the shop's words as they are now: waits where it is still to be made. The one before, where it can't be. */
  files: () => Promise<ModelFiles>;
  /** Makes the model anew where the shop's words have changed; one at a time, however often it is asked for. */
  refresh: () => Promise<void>;
};

/** Keeps a shop's model of speech on disk and up to date. */
export function keepShopModel({ words, make, folder, log }: ShopModelDeps): ShopModel {
  let newest: string | null = null;
  let making: Promise<void> | null = null;

  async function renew(): Promise<void> {
    const now = await words();
    const name = nameOf(now);
    if (name === newest) return;
    if (!(await isThere(join(folder, name)))) await make(now, join(folder, name));
    const before = newest;
    newest = name;
    log.info({ model: name }, 'voice notes are listened to with a new model');
    await removeOthers(folder, [name, before]);
  }

  function refresh(): Promise<void> {
    making ??= renew().finally(() => (making = null));
    return making;
  }

  return {
    refresh,
    files: async () => {
      await refresh().catch((error: unknown) => {
        if (newest === null) throw error;
        log.warn({ err: error }, 'the model of speech could not be renewed');
      });
      if (newest === null) throw new Error('there is no model of speech');
      return filesIn(join(folder, newest));
    },
  };
}

/** Makes a model in a process of its own. */
export function makeAside(compiler: string): ShopModelDeps['make'] {
  const program = MAKE_MODEL;
  return async (words, folder) => {
    const child = spawn(process.execPath, [program, compiler, folder], {
      stdio: ['pipe', 'ignore', 'inherit'],
    });
    child.stdin.end(JSON.stringify(words));
    const [code] = (await once(child, 'close')) as [number | null];
    if (code !== 0) throw new Error(`the model of speech could not be made (code ${code})`);
  };
}

/** Goes up when the same words and patterns come to make another model. */
const MODEL_FORM = 2;

const digest = (text: string): string => createHash('sha256').update(text).digest('hex');

/** What every shop's model is made of; it doesn't change while the service runs. */
const TRADE = digest(JSON.stringify([MODEL_FORM, lexicon.parts, phrases, patterns]));

/** Of everything that a model is made of. */
const nameOf = (words: ShopWords): string => digest(JSON.stringify([TRADE, words])).slice(0, 16);

/** Models that are in use no more; what another process still makes is left alone. */
async function removeOthers(folder: string, kept: readonly (string | null)[]): Promise<void> {
  const old = (await readdir(folder)).filter((name) => /^[0-9a-f]{16}$/.test(name) && !kept.includes(name));
  await Promise.all(old.map((name) => rm(join(folder, name), { recursive: true, force: true })));
}
