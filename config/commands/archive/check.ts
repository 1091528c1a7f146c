import { mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Audit } from '../../../src/desk/audit.js';
import { audit } from '../../../src/desk/audit.js';
import { upcast } from '../../../src/job/upcast.js';
import type { Manifest } from '../../../src/record/archive/format.js';
import { restoreShop } from '../../../src/record/archive/restore.js';
import { openRecord } from '../../../src/record/index.js';
import { backUpName, daysKept } from '../../back-up/names.js';
import { connectForRecord } from '../../redis/connect.js';
import { startPrivateRedis } from '../../redis/private-redis.js';
import { readSettings } from '../../settings.js';
import type { Settings } from '../../settings.js';
import type { CommandLine } from './run.js';
import { summary } from './run.js';

const IN_ORDER = 0;
const FAULTY = 1;
const MISUSED = 2;
const FAULTS_SHOWN = 20;
const quiet = { info: () => undefined, warn: () => undefined, error: () => undefined };

/**
 * `check [ARCHIVE]`: restores an archive (the newest back-up by default) aside, into a Redis of its own, reads all of
 * it, and says whether it is whole. The shop itself is not touched. Gives the exit code.
 */
export async function runCheck({ args, env, say }: Omit<CommandLine, 'now'>): Promise<number> {
  const reading = readSettings({ ...env, REHEARSAL_CLOCK: undefined }, { token: false });
  if (!reading.ok) {
    reading.problems.forEach(say);
    return MISUSED;
  }
  if (args.length > 1 || args[0]?.startsWith('-')) {
    say('Usage: npm run check -- [ARCHIVE.tar.gz]');
    return MISUSED;
  }
  const given = args[0] === undefined ? null : resolve(env['INIT_CWD'] ?? process.cwd(), args[0]);
  const archivePath = given ?? (await newestBackUp(reading.settings));
  if (archivePath === null) {
    say(
      `There is no back-up of the shop '${reading.settings.shopKey}' in ${reading.settings.backUpDir ?? ''}.`,
    );
    return FAULTY;
  }
  const checked = await checkAside(archivePath);
  if ('problem' in checked) {
    say(`${archivePath}: ${checked.problem}`);
    return FAULTY;
  }
  return tell(archivePath, checked, say);
}

async function newestBackUp({ backUpDir, shopKey }: Settings): Promise<string | null> {
  if (backUpDir === null) return null;
  const day = daysKept(await readdir(backUpDir).catch(() => []), shopKey).at(-1);
  return day === undefined ? null : join(backUpDir, backUpName(shopKey, day));
}

type Checked = { manifest: Manifest; found: Audit };

async function checkAside(archivePath: string): Promise<Checked | { problem: string }> {
  const folder = await mkdtemp(join(tmpdir(), 'benchhand-check-'));
  try {
    const server = await startPrivateRedis({ dataDir: folder, fsync: 'no', log: quiet });
    if (!server.ok) return { problem: server.problem };
    try {
      return await restoreAndRead(archivePath, server.redis.url, join(folder, 'files'));
    } finally {
      await server.redis.stop();
    }
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

async function restoreAndRead(
  archivePath: string,
  url: string,
  filesDir: string,
): Promise<Checked | { problem: string }> {
  const redis = await connectForRecord({ url, name: 'check', log: quiet });
  try {
    const restored = await restoreShop({ archivePath, redis, filesDir, shop: 'aside' });
    if (restored.outcome === 'refused') return { problem: restored.sentence };
    const record = openRecord({ redis, shop: 'aside', filesDir, upcast });
    const sizeOf = (path: string): Promise<number | null> =>
      stat(path).then(
        ({ size }) => size,
        () => null,
      );
    const found = await audit(record, sizeOf);
    await record.close();
    return { manifest: restored.manifest, found };
  } finally {
    redis.disconnect();
  }
}

function tell(archivePath: string, { manifest, found }: Checked, say: CommandLine['say']): number {
  const faults = [...countFaults(manifest, found), ...found.faults];
  if (faults.length === 0) {
    say(`${archivePath} is in order: ${summary(manifest)}. Every stream was restored and read.`);
    return IN_ORDER;
  }
  say(`${archivePath} is not in order:`);
  faults.slice(0, FAULTS_SHOWN).forEach((fault) => say(`- ${fault}`));
  if (faults.length > FAULTS_SHOWN) say(`and ${faults.length - FAULTS_SHOWN} more.`);
  return FAULTY;
}

/** Where what came out is not what the archive says went in. */
function countFaults({ streams, counts, missingFiles }: Manifest, found: Audit): string[] {
  const written: ReadonlyMap<string, number> = new Map(Object.entries(streams));
  const names = new Set([...written.keys(), ...found.streams.keys()]);
  const differing = [...names].flatMap((name) => {
    const [was, is] = [written.get(name) ?? 0, (found.streams as ReadonlyMap<string, number>).get(name) ?? 0];
    return was === is ? [] : [`${name}: ${was} events were written, ${is} came back.`];
  });
  const whole =
    counts.events === found.events
      ? []
      : [`${counts.events} events were written, ${found.events} came back.`];
  return [
    ...differing,
    ...whole,
    ...missingFiles.map((hash) => `The file ${hash} was missing when it was written.`),
  ];
}
