// @ts-check
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { toolsDir } from './project.mjs';

/** @typedef {{ path: string, version: string }} Server */

/** Streams with approximate trimming by id, XAUTOCLAIM and ZADD's GT came with 6.2 (its release notes). */
export const OLDEST_REDIS = /** @type {const} */ ([6, 2]);

const NAMES = ['redis-server', 'valkey-server'];

/** The folder that the distribution's packages are unpacked into, and the wrapper that starts the server in it. */
export const unpackedDir = join(toolsDir, 'redis');
export const unpackedServer = join(unpackedDir, 'redis-server');

/**
 * The first redis-server or valkey-server, 6.2 or newer, on PATH or unpacked beside the project; null where there
 * is none.
 * @param {NodeJS.ProcessEnv} [env]
 * @returns {Server | null}
 */
export function findRedis(env = process.env) {
  for (const path of [...onPath(env), unpackedServer]) {
    const version = serverVersion(path);
    if (version !== null && isNewEnough(version)) return { path, version };
  }
  return null;
}

/**
 * What `path --version` says, e.g. '7.0.15'; null where it doesn't run or isn't a Redis or Valkey server.
 * @param {string} path
 * @returns {string | null}
 */
export function serverVersion(path) {
  if (!isExecutable(path)) return null;
  const { stdout } = spawnSync(path, ['--version'], { encoding: 'utf8', timeout: 10_000 });
  return /(?:Redis|Valkey) server v=(\d+\.\d+\.\d+)/.exec(stdout ?? '')?.[1] ?? null;
}

/** @param {string} version as in '7.0.15' */
export function isNewEnough(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major > OLDEST_REDIS[0] || (major === OLDEST_REDIS[0] && minor >= OLDEST_REDIS[1]);
}

/** @param {NodeJS.ProcessEnv} env */
function onPath(env) {
  const folders = (env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  return NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
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
