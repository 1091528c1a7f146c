import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { heardOf } from '../src/desk/heard.js';
import { agreement } from './agreement.js';
import type { Recognise } from './recogniser.js';

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

/** A note is listened to for so long: most take under half a minute. */
export const LISTENED_SECONDS = 180;
const DECODE_LIMIT_MS = 20_000;
const RECOGNISE_LIMIT_MS = 60_000;

const SAMPLES_PER_SECOND = 16_000;
const BYTES_PER_SAMPLE = 2;
/** What is shorter than this has no word in it. */
const SHORTEST_SECONDS = 0.15;

/** Formats of notes and recordings, none of which can name another file. */
const FORMATS = 'ogg,matroska,webm,wav,mp3,mov,mp4,m4a,3gp,aac,flac,amr';

const BEST_LISTS = 10;

/**
 * Steady noise is taken off before the sound is listened to: 12 dB by ffmpeg's afftdn, its floor following the note's own.
 * Pocketsphinx's own noise removal, in mel bands, is left off: with it both clean and noisy speech was heard worse.
 * Found, as the beams were, on other sentences than tests/bench/speech.ts measures by.
 */
const QUIETED = 'afftdn=nr=12:nf=-35:tn=1';
const SEARCH = ['-remove_noise', 'no', '-topn', '8', '-beam', '1e-60', '-wbeam', '1e-40'];

const run = promisify(execFile);

/**
 * Listens by pocketsphinx with the newest model. What is no sound, or holds no word, is null; where the programs can't be
 * started it throws.
 */
export function byPocketsphinx(tools: Pocketsphinx, model: () => Promise<ModelFiles>): Recognise {
  return async (path) => {
    const folder = await mkdtemp(join(tmpdir(), 'benchhand-listening-'));
    try {
      const samples = join(folder, 'note.raw');
      if (!(await decode(tools, path, samples))) return null;
      return heardOf(await wordsIn(tools, await model(), samples));
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  };
}

/** Writes a sound file's samples, 16 kHz, one channel, 16 bits; false where it is no sound or too short. */
async function decode({ decoder }: Pocketsphinx, from: string, to: string): Promise<boolean> {
  const source = ['-protocol_whitelist', 'file', '-format_whitelist', FORMATS, '-i', `file:${from}`];
  const form = ['-vn', '-af', QUIETED, '-ac', '1', '-ar', String(SAMPLES_PER_SECOND), '-f', 's16le'];
  const limit = ['-t', String(LISTENED_SECONDS)];
  try {
    await run(decoder, ['-nostdin', '-v', 'error', ...source, ...form, ...limit, `file:${to}`], {
      timeout: DECODE_LIMIT_MS,
    });
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') throw error;
    return false;
  }
  const { size } = await stat(to);
  return size >= SHORTEST_SECONDS * SAMPLES_PER_SECOND * BYTES_PER_SAMPLE;
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
