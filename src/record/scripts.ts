import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Redis } from 'ioredis';

/** A script that is ready to run; ioredis sends its digest and falls back to the text. */
export type Script = (keys: readonly string[], args: readonly (string | number)[]) => Promise<unknown>;

/**
 * Makes the named script of `src/record/scripts/` ready on a connection; without a number of keys it takes as many as it is
 * given. Throws when there is no such file.
 */
export function defineScript(redis: Redis, file: string, numberOfKeys?: number): Script {
  const name = `benchhand-${file}`;
  const lua = readFileSync(scriptPath(file), 'utf8');
  redis.defineCommand(name, { lua, ...(numberOfKeys === undefined ? {} : { numberOfKeys }) });
  const command = (redis as unknown as Record<string, (...args: unknown[]) => Promise<unknown>>)[name];
  if (command === undefined) throw new Error(`ioredis did not define ${name}`);
  if (numberOfKeys === undefined) return (keys, args) => command.call(redis, keys.length, ...keys, ...args);
  return (keys, args) => {
    if (keys.length !== numberOfKeys)
      throw new Error(`${file} takes ${numberOfKeys} keys, not ${keys.length}`);
    return command.call(redis, ...keys, ...args);
  };
}

/** The compiler copies no .lua files, so compiled code reads them from the source tree above dist/. */
function scriptPath(file: string): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) {
    const above = dirname(folder);
    if (above === folder)
      throw new Error(`No package.json above ${import.meta.url}: cannot find ${file}.lua`);
    folder = above;
  }
  return join(folder, 'src/record/scripts', `${file}.lua`);
}
