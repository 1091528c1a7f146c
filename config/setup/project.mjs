// @ts-check
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder: the nearest one above this file with a package.json, from source and from dist alike. */
export const projectRoot = findRoot(dirname(fileURLToPath(import.meta.url)));

/** Where things fetched for the project alone are kept; git ignores it. */
export const toolsDir = join(projectRoot, '.tools');

/**
 * @param {string} dir
 * @returns {string}
 */
function findRoot(dir) {
  if (existsSync(join(dir, 'package.json'))) return dir;
  const parent = dirname(dir);
  if (parent === dir) throw new Error('No package.json above the set-up scripts.');
  return findRoot(parent);
}
