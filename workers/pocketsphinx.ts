import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { heardOf } from '../src/desk/heard.js';
import { agreement } from './agreement.js';
import type { Recognise } from './recogniser.js';
import { decodeSound, LISTENED_SECONDS } from './sound-file.js';

/** The programs and the acoustic model, by their paths. */
export type Pocketsphinx = {
  /** ffmpeg */
  readonly decoder: string;
  /** pocketsphinx_batch */
  readonly recogniser: string;
  readonly acoustics: string;
};

/** A language model and its pronouncing dictionary, as paths. */
export type ModelFiles = { readonly languageModel: string; readonly dictionary: string };

const RECOGNISE_LIMIT_MS = 60_000;

const NO_WORDS = { text: '', doubts: [] };

const BEST_LISTS = 10;

/** Pocketsphinx's own removal of noise is off (see sound-file.ts); the beams are wider than its own. */
const SEARCH = ['-remove_noise', 'no', '-topn', '8', '-beam', '1e-60', '-wbeam', '1e-40'];

const run = promisify(execFile);

/**
 * Listens by pocketsphinx with the newest model. What is no sound, or holds no word, is null, but that a note which goes on after
 * LISTENED_SECONDS says so; where the programs can't be started it throws.
 */
export function byPocketsphinx(tools: Pocketsphinx, model: () => Promise<ModelFiles>): Recognise {
  return async (path) => {
    const folder = await mkdtemp(join(tmpdir(), 'benchhand-listening-'));
    try {
      const samples = join(folder, 'note.raw');
      const sound = await decodeSound(tools.decoder, path, samples);
      if (sound === null) return null;
      const heard = heardOf(await wordsIn(tools, await model(), samples));
      return sound.cut ? { ...(heard ?? NO_WORDS), upTo: LISTENED_SECONDS } : heard;
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  };
}

async function wordsIn({ recogniser, acoustics }: Pocketsphinx, model: ModelFiles, samples: string) {
  const folder = dirname(samples);
  const name = basename(samples, '.raw');
  const [list, heard] = [join(folder, 'list'), join(folder, 'heard')];
  await writeFile(list, `${name}\n`);
  const sound = ['-ctl', list, '-cepdir', folder, '-cepext', '.raw', '-adcin', 'yes'];
  const known = ['-hmm', acoustics, '-lm', model.languageModel, '-dict', model.dictionary];
  const rivals = ['-nbest', String(BEST_LISTS), '-nbestdir', folder, '-nbestext', '.best'];
  const out = ['-hyp', heard, '-logfn', '/dev/null'];
  try {
    await run(recogniser, [...known, ...SEARCH, ...sound, ...rivals, ...out], {
      timeout: RECOGNISE_LIMIT_MS,
    });
  } catch (error) {
    // What takes too long would take too long again.
    if (error instanceof Error && 'killed' in error && error.killed === true) return [];
    throw error;
  }
  const best = lineOf(await readFile(heard, 'utf8'));
  const others = await readFile(join(folder, `${name}.best`), 'utf8').catch(() => '');
  return agreement(best, others.split('\n').map(lineOf));
}

/** A line of pocketsphinx's: the words, then the score (with the note's name before it, in the list of the best). */
function lineOf(line: string): string[] {
  const words = line.replace(/\(?\S* ?-?\d+\)?\s*$/, '').trim();
  return words === '' ? [] : words.split(/\s+/);
}
