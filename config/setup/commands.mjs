// @ts-check
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { runChild } from './child.mjs';
import { projectRoot } from './project.mjs';
import { say } from './say.mjs';
import { SetupTrouble } from './trouble.mjs';

const dist = join(projectRoot, 'dist');

/** The folders that commands and benchmarks are compiled into; helpers lie in folders below. */
export const commandsDir = join(dist, 'config/commands');
export const benchDir = join(dist, 'tests/bench');

/** Commands that read and write streams or files alone. */
const WITHOUT_REDIS = new Set(['hear', 'hear-score', 'solve']);

/**
 * Whether a command needs a server that we can start: the service itself needs none where it is given one's address.
 * @param {string} command
 * @param {NodeJS.ProcessEnv} env
 */
export function needsRedis(command, env) {
  if (WITHOUT_REDIS.has(command)) return false;
  const usesGivenRedis = ['start', 'export', 'restore', 'check'].includes(command);
  return !(usesGivenRedis && (env['REDIS_URL'] ?? '') !== '');
}

/**
 * Goes on as the program `name` of `folder`, in this process: so signals, standard input and the exit code are its
 * own.
 * @param {string} folder
 * @param {string} name
 * @param {readonly string[]} args
 */
export async function become(folder, name, args) {
  const program = join(folder, `${name}.js`);
  if (!existsSync(program)) {
    throw new SetupTrouble(`There is no '${name}'. There are: ${programsIn(folder).join(', ') || 'none'}.`);
  }
  process.argv = [process.execPath, program, ...args];
  process.setSourceMapsEnabled(true);
  await import(pathToFileURL(program).href);
}

/**
 * Runs one benchmark by its name, or all one after the other.
 * @param {readonly string[]} args the name and its arguments, or nothing
 */
export async function bench([name, ...args]) {
  if (name !== undefined) return become(benchDir, name, args);
  for (const each of programsIn(benchDir)) {
    say(`bench ${each}`);
    const { code } = await runChild(process.execPath, [join(benchDir, `${each}.js`)], { show: 'all' });
    if (code !== 0) process.exitCode = code;
  }
}

/** @param {string} folder */
function programsIn(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith('.js'))
    .map((name) => name.slice(0, -'.js'.length));
}
