import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { exportShop } from '../../../src/record/archive/export.js';
import type { Manifest } from '../../../src/record/archive/format.js';
import { restoreShop } from '../../../src/record/archive/restore.js';
import { readSettings } from '../../settings.js';
import type { Settings } from '../../settings.js';
import { openShopRedis } from './shop-redis.js';

export type CommandLine = {
  args: readonly string[];
  env: Readonly<Record<string, string | undefined>>;
  /** A line for who asked. */
  say: (line: string) => void;
  /** Names an archive that was given no name. */
  now: () => Date;
};

/** Exit codes: done; it could not be done; it was asked for wrongly. */
const DONE = 0;
const FAILED = 1;
const MISUSED = 2;

/** `export [FILE]`: writes the shop to one archive. Gives the exit code. */
export async function runExport({ args, env, say, now }: CommandLine): Promise<number> {
  const settings = settingsFor(env, say);
  if (settings === null) return MISUSED;
  if (args.length > 1 || args[0]?.startsWith('-')) return misused(say, 'npm run export -- [FILE.tar.gz]');
  const stamp = now().toISOString().replaceAll(':', '').slice(0, 17);
  const outPath = fromWhere(env, args[0] ?? `benchhand-${settings.shopKey}-${stamp}.tar.gz`);
  if (existsSync(outPath)) return failed(say, `${outPath} is there already. Give another name.`);
  const opened = await openShopRedis(settings, { mayJoin: true });
  if (!opened.ok) return failed(say, opened.problem);
  try {
    const { shopKey: shop, filesDir } = settings;
    const manifest = await exportShop({ redis: opened.redis, shop, filesDir, outPath });
    say(`Wrote ${outPath}: ${summary(manifest)}.`);
    for (const hash of manifest.missingFiles)
      say(`Not on the disk, so not in the archive: the file ${hash}.`);
    return manifest.missingFiles.length === 0 ? DONE : FAILED;
  } finally {
    await opened.close();
  }
}

/** `restore FILE`: puts an archive back into an empty Redis. Gives the exit code. */
export async function runRestore({ args, env, say }: CommandLine): Promise<number> {
  const settings = settingsFor(env, say);
  if (settings === null) return MISUSED;
  const [file] = args;
  if (file === undefined || args.length > 1 || file.startsWith('-')) {
    return misused(say, 'npm run restore -- FILE.tar.gz (with the service stopped)');
  }
  const opened = await openShopRedis(settings, { mayJoin: false });
  if (!opened.ok) return failed(say, opened.problem);
  try {
    const { shopKey: shop, filesDir } = settings;
    const archivePath = fromWhere(env, file);
    const restored = await restoreShop({ archivePath, redis: opened.redis, filesDir, shop });
    if (restored.outcome === 'refused') return failed(say, restored.sentence);
    say(`Restored the shop '${restored.shop}': ${summary(restored.manifest)}.`);
    return DONE;
  } finally {
    await opened.close();
  }
}

function settingsFor(env: CommandLine['env'], say: CommandLine['say']): Settings | null {
  const reading = readSettings(env, { token: false });
  if (reading.ok) return reading.settings;
  reading.problems.forEach(say);
  return null;
}

/** What an archive holds, in words. */
export function summary({ counts, takenAt }: Manifest): string {
  const { streams, events, files, fileBytes } = counts;
  return `${events} events in ${streams} streams, ${files} files (${(fileBytes / 1e6).toFixed(1)} MB), as it stood at ${takenAt}`;
}

/** npm changes to the project's folder; a path is meant from where npm was called. */
function fromWhere(env: CommandLine['env'], path: string): string {
  return resolve(env['INIT_CWD'] ?? process.cwd(), path);
}

function failed(say: CommandLine['say'], problem: string): number {
  say(problem);
  return FAILED;
}

function misused(say: CommandLine['say'], usage: string): number {
  say(`Usage: ${usage}`);
  return MISUSED;
}
