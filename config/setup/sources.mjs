// @ts-check
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const ROOMS = ['src', 'workers', 'bot', 'config', 'tests'];
const SETTINGS = ['package.json', 'package-lock.json', 'tsconfig.json'];
const CODE = /\.(m?ts|m?js)$/;

/** @typedef {{ code: string[], data: string[] }} Sources */

/**
 * What is built: code, and the data files that lie beside it (of the tests, code alone), as paths relative to `root`.
 * @param {string} root
 * @returns {Sources}
 */
export function listSources(root) {
  const all = ROOMS.flatMap((room) => listFiles(root, room)).filter(
    (path) => path !== 'config/eslint.config.js',
  );
  return {
    code: all.filter((path) => CODE.test(path)),
    data: all.filter((path) => !CODE.test(path) && !path.startsWith('tests/') && !path.endsWith('.md')),
  };
}

/**
 * A digest of the sources' names, sizes and times.
 * @param {string} root
 * @param {Sources} sources
 */
export function digestOf(root, { code, data }) {
  const hash = createHash('sha256');
  for (const path of [...SETTINGS, ...code, ...data]) {
    const { size, mtimeMs } = statSync(join(root, path));
    hash.update(`${path}\0${size}\0${mtimeMs}\n`);
  }
  return hash.digest('hex');
}

/**
 * The files under `folder`, sorted, relative to `root`.
 * @param {string} root
 * @param {string} folder
 * @returns {string[]}
 */
export function listFiles(root, folder) {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = `${folder}/${entry.name}`;
      if (entry.isDirectory()) return listFiles(root, path);
      return entry.isFile() ? [path] : [];
    });
}

/**
 * What the compiler makes of a code file, relative to the output folder; nothing of declarations.
 * @param {string} path
 * @returns {string[]}
 */
export function outputsOf(path) {
  if (/\.d\.m?ts$/.test(path)) return [];
  const made = path.replace(/\.(m?)ts$/, '.$1js');
  return [made, `${made}.map`];
}
