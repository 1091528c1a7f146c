// @ts-check
import { chmodSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { runChild } from './child.mjs';
import { hasDebianTools, makeFetcher } from './debian-packages.mjs';
import { findSpeech, findVoice, FITTERS, LISTENERS, placesOf, speechDir, VOICES } from './find-speech.mjs';
import { withLock } from './lock.mjs';
import { toolsDir } from './project.mjs';
import { say } from './say.mjs';
import { SetupTrouble } from './trouble.mjs';

/** Debian's names; the last two speak for the tests, the benchmark and the demo. */
const PACKAGES = ['pocketsphinx', 'pocketsphinx-en-us', 'sphinxbase-utils', 'ffmpeg', 'espeak-ng', 'flite'];
/** Its programs need no more than those above; what it depends on is for its scripts. */
const ALONE = ['sphinxtrain'];

/**
 * Sees to it that voice notes can be listened to: the programs on PATH, or the distribution's packages unpacked into
 * .tools/speech. Nothing is installed into the system. Throws a SetupTrouble that says what to do where neither works.
 */
export async function ensureSpeech() {
  if (isComplete()) return say('The tools for voice notes are there.');
  if (!hasDebianTools())
    throw new SetupTrouble(`Please install ${[...PACKAGES, ...ALONE].join(', ')}, so that they are on PATH.`);
  const wait = () => say('Waiting for another set-up to fetch the tools for voice notes ...');
  await withLock(
    join(toolsDir, 'speech.lock'),
    async () => {
      if (!isComplete()) await fetchSpeech();
    },
    wait,
  );
  say('Voice notes are listened to from the next start on.');
}

function isComplete() {
  const tools = findSpeech();
  // Elsewhere sphinxtrain may be hard to come by: notes are heard without it, if less well.
  const fits = tools?.fitter != null || !hasDebianTools();
  return tools !== null && fits && VOICES.every((name) => findVoice(name) !== null);
}

async function fetchSpeech() {
  say(
    'Fetching the tools for voice notes (about 90 MB) from the distribution into .tools/speech, not into the system ...',
  );
  const work = join(toolsDir, 'speech.work');
  rmSync(work, { recursive: true, force: true });
  mkdirSync(work, { recursive: true });
  try {
    const made = join(work, 'speech');
    await unpackInto(made, join(work, 'apt'));
    rmSync(speechDir, { recursive: true, force: true });
    renameSync(made, speechDir);
  } catch (error) {
    if (!(error instanceof SetupTrouble)) throw error;
    throw new SetupTrouble(
      `${error.message}\nThe tools for voice notes come from the distribution's package servers: try again with network, or install ${[...PACKAGES, ...ALONE].join(', ')}.`,
    );
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

/**
 * @param {string} made
 * @param {string} aptDir
 */
async function unpackInto(made, aptDir) {
  const root = join(made, 'root');
  mkdirSync(root, { recursive: true });
  const fetcher = makeFetcher(aptDir);
  await fetcher.fetch([...(await fetcher.needed(PACKAGES)), ...ALONE], root);
  const libraries = libraryFolders(root).map((folder) => relative(made, folder));
  for (const name of [...LISTENERS, ...FITTERS, ...VOICES]) {
    const wrapper = join(made, name);
    writeFileSync(wrapper, wrapperText(name, programIn(root, name), libraries, dataOf(root)));
    chmodSync(wrapper, 0o755);
    await checkStarts(wrapper, name);
  }
}

/**
 * A program that lacks a library is told by the linker's exit code; any other answer to `-version` will do.
 * @param {string} wrapper
 * @param {string} name
 */
async function checkStarts(wrapper, name) {
  const { code, stderr } = await runChild(wrapper, ['-version']);
  if (code === 126 || code === 127) throw new SetupTrouble(`${name} does not start: ${stderr.trim()}`);
}

/**
 * Every folder of shared libraries at or below `folder`, BLAS and PulseAudio keeping theirs in folders of their own.
 * @param {string} folder
 * @returns {string[]}
 */
function libraryFolders(folder) {
  const entries = readdirSync(folder, { withFileTypes: true });
  const inner = entries.filter((entry) => entry.isDirectory() && entry.name !== 'share');
  const own = entries.some(({ name }) => /\.so(\.|$)/.test(name)) ? [folder] : [];
  return [...own, ...inner.flatMap(({ name }) => libraryFolders(join(folder, name)))];
}

/**
 * The folder above espeak-ng-data, relative to the folder above `root`; null where the system has it.
 * @param {string} root
 */
function dataOf(root) {
  const lib = join(root, 'usr/lib');
  const triplet = readdirSync(lib).find((name) => existsSync(join(lib, name, 'espeak-ng-data')));
  return triplet === undefined ? null : `root/usr/lib/${triplet}`;
}

/**
 * A program's path below `root`; the usual one where it isn't there.
 * @param {string} root
 * @param {string} name
 */
function programIn(root, name) {
  const places = placesOf(name);
  return places.find((place) => existsSync(join(root, place))) ?? places[0] ?? name;
}

/**
 * A relative wrapper, so that the folder can be moved with the project; `exec` keeps the process id. A program that the
 * system has already is left to PATH.
 * @param {string} name
 * @param {string} program
 * @param {readonly string[]} libraries
 * @param {string | null} data
 */
function wrapperText(name, program, libraries, data) {
  const path = libraries.map((folder) => `$here/${folder}`).join(':');
  const voices = data === null ? '' : `export ESPEAK_DATA_PATH="$here/${data}"\n`;
  return `#!/bin/sh
here=$(dirname "$(readlink -f "$0")")
export LD_LIBRARY_PATH="${path}\${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}"
${voices}[ -x "$here/root/${program}" ] && exec "$here/root/${program}" "$@"
exec ${name} "$@"
`;
}
