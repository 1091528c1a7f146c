import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { heardOf, type HeardWord } from '../src/desk/heard.js';
import { agreement } from './agreement.js';
import { fitVoice, type VoiceFiles } from './own-voice.js';
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

/** A longer note is listened to once only: laying words along a sound takes time and memory by the square of its length. */
const FITTED_SECONDS = 30;
/** Pocketsphinx's own removal of noise is off (see sound-file.ts); the beams are wider than its own. Narrower ones save a third of the time, and hear worse. */
const SEARCH = ['-remove_noise', 'no', '-topn', '8', '-beam', '1e-60', '-wbeam', '1e-40'];

const run = promisify(execFile);

/**
 * Listens by pocketsphinx with the newest model: twice where a voice can be fitted to, the second time with the acoustic model fitted
 * to the note by what was heard the first time. What is no sound, or holds no word, is null, but that a note which goes on after
 * LISTENED_SECONDS says so; where the programs can't be started it throws.
 */
export function byPocketsphinx(
  tools: Pocketsphinx,
  model: () => Promise<ModelFiles>,
  voice: () => Promise<VoiceFiles | null> = () => Promise.resolve(null),
): Recognise {
  return async (path) => {
    const folder = await mkdtemp(join(tmpdir(), 'benchhand-listening-'));
    try {
      const samples = join(folder, 'note.raw');
      const sound = await decodeSound(tools.decoder, path, samples);
      if (sound === null) return null;
      const fitted = sound.seconds > FITTED_SECONDS ? null : await voice();
      const heard = heardOf(await wordsIn({ tools, model: await model(), voice: fitted, samples }));
      return sound.cut ? { ...(heard ?? NO_WORDS), upTo: LISTENED_SECONDS } : heard;
    } finally {
      await rm(folder, { recursive: true, force: true });
    }
  };
}

type Note = {
  readonly tools: Pocketsphinx;
  readonly model: ModelFiles;
  readonly voice: VoiceFiles | null;
  readonly samples: string;
};

async function wordsIn(note: Note): Promise<HeardWord[]> {
  const { model, voice, samples } = note;
  const first = await listen(note, null);
  if (voice === null || first.best.length === 0) return agreement(first.best, first.rivals);
  const transform = await fitVoice(voice, samples, first.best, model.dictionary);
  // A model that can't be fitted after all takes nothing from what was heard.
  const second = transform === null ? first : await listen(note, transform).catch(() => first);
  const { best, rivals } = second.best.length === 0 ? first : second;
  return agreement(best, rivals);
}

type Hypotheses = { readonly best: string[]; readonly rivals: string[][] };

async function listen({ tools, model, samples }: Note, transform: string | null): Promise<Hypotheses> {
  const folder = dirname(samples);
  const name = basename(samples, '.raw');
  const [list, heard] = [join(folder, 'list'), join(folder, 'heard')];
  await writeFile(list, `${name}\n`);
  const sound = ['-ctl', list, '-cepdir', folder, '-cepext', '.raw', '-adcin', 'yes'];
  const known = ['-hmm', tools.acoustics, '-lm', model.languageModel, '-dict', model.dictionary];
  const fitted = transform === null ? [] : ['-mllr', transform];
  const rivals = ['-nbest', String(BEST_LISTS), '-nbestdir', folder, '-nbestext', '.best'];
  const out = ['-hyp', heard, '-logfn', '/dev/null'];
  try {
    await run(tools.recogniser, [...known, ...fitted, ...SEARCH, ...sound, ...rivals, ...out], {
      timeout: RECOGNISE_LIMIT_MS,
    });
  } catch (error) {
    // What takes too long would take too long again.
    if (error instanceof Error && 'killed' in error && error.killed === true) return { best: [], rivals: [] };
    throw error;
  }
  const best = lineOf(await readFile(heard, 'utf8'));
  const others = await readFile(join(folder, `${name}.best`), 'utf8').catch(() => '');
  return { best, rivals: others.split('\n').map(lineOf) };
}

/** A line of pocketsphinx's: the words, then the score (with the note's name before it, in the list of the best). */
function lineOf(line: string): string[] {
  const words = line.replace(/\(?\S* ?-?\d+\)?\s*$/, '').trim();
  return words === '' ? [] : words.split(/\s+/);
}
