// @ts-check
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { toolsDir } from './project.mjs';

/**
 * What fits the acoustic model to a voice: features of a sound, counts of a spoken text, a transform out of counts, and the
 * phones' definitions as text.
 * @typedef {{ features: string, counter: string, solver: string, definitions: string }} VoiceFitter
 * @typedef {{ decoder: string, recogniser: string, compiler: string, acoustics: string, fitter: VoiceFitter | null }} SpeechTools
 */

/** The folder that the distribution's packages are unpacked into; the wrappers that start their programs lie in it. */
export const speechDir = join(toolsDir, 'speech');

/** The programs that listen, and those that speak for the tests. */
export const LISTENERS = ['ffmpeg', 'pocketsphinx_batch', 'sphinx_lm_convert'];
export const VOICES = ['espeak-ng', 'flite'];
/** Those that fit the recogniser to a voice: without them every note is listened to once only. */
export const FITTERS = ['sphinx_fe', 'bw', 'mllr_solve', 'pocketsphinx_mdef_convert'];
/** Where Debian's sphinxtrain puts its programs, which are not for PATH. */
const TRAINING = 'usr/lib/sphinxtrain';

/** Where pocketsphinx-en-us puts its acoustic model. */
const ACOUSTICS = 'usr/share/pocketsphinx/model/en-us/en-us';

/**
 * What is needed to listen to voice notes, unpacked beside the project or installed in the system; null where some of it is
 * missing.
 * @param {NodeJS.ProcessEnv} [env]
 * @returns {SpeechTools | null}
 */
export function findSpeech(env = process.env) {
  const [decoder, recogniser, compiler] = LISTENERS.map((name) => findProgram(name, env));
  const acoustics = [join(speechDir, 'root', ACOUSTICS), join('/', ACOUSTICS)].find((path) =>
    existsSync(path),
  );
  if (!decoder || !recogniser || !compiler || !acoustics) return null;
  return { decoder, recogniser, compiler, acoustics, fitter: findFitter(env) };
}

/**
 * @param {NodeJS.ProcessEnv} env
 * @returns {VoiceFitter | null}
 */
function findFitter(env) {
  const [features, counter, solver, definitions] = FITTERS.map((name) => findProgram(name, env));
  return features && counter && solver && definitions ? { features, counter, solver, definitions } : null;
}

/**
 * Where a program lies below the root of a file system, as the distribution's packages have it.
 * @param {string} name
 */
export const placesOf = (name) => [`usr/bin/${name}`, `${TRAINING}/${name}`];

/**
 * The program that speaks, by its name; null where it is missing.
 * @param {string} name one of VOICES
 * @param {NodeJS.ProcessEnv} [env]
 */
export function findVoice(name, env = process.env) {
  return findProgram(name, env);
}

/**
 * @param {string} name
 * @param {NodeJS.ProcessEnv} env
 * @returns {string | null}
 */
function findProgram(name, env) {
  const folders = (env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  const places = [join(speechDir, name), ...[...folders, `/${TRAINING}`].map((folder) => join(folder, name))];
  return places.find(isExecutable) ?? null;
}

/** @param {string} path */
function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
