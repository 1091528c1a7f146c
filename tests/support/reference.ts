import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * A file of tests/references, parsed. Found from this file's place, so that it works from source and from
 * dist/ (where the JSON files are not copied).
 */
export function reference<T>(name: string): T {
  const here = fileURLToPath(import.meta.url).replace(/\/dist\/tests\//, '/tests/');
  const file = here.replace(/support\/reference\.[jt]s$/, `references/${name}`);
  return JSON.parse(readFileSync(file, 'utf8')) as T;
}
