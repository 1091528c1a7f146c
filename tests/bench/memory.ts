import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { ServiceProcess } from '../../config/demo/service-process.js';
import { startServiceProcess } from '../../config/demo/service-process.js';
import { projectRoot } from '../../config/setup/project.mjs';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import { printTable } from './support/figures.js';
import { withRedis } from './support/with-redis.js';

/** At rest: so long after it was last spoken to. V8 gives back what starting up left after half a minute of idleness. */
const REST_MS = 40_000;

/** Memory that a process holds, in MB (Linux, proc(5): VmRSS in kB). */
async function residentMb(pid: number): Promise<number> {
  const status = await readFile(`/proc/${pid}/status`, 'utf8');
  return Number(/^VmRSS:\s+(\d+) kB/m.exec(status)?.[1] ?? NaN) / 1024;
}

await withRedis(async (redis) => {
  const folder = await mkdtemp(join(tmpdir(), 'benchhand-memory-'));
  const rehearsal = await startRehearsal({ now: Date.now });
  const env = { ...process.env, BOT_API_ROOT: rehearsal.url, REDIS_URL: redis.url };
  const start = (name: string, path: string, args: string[]): ServiceProcess =>
    startServiceProcess({
      ...{ name, args, program: join(projectRoot, 'dist', path), logFile: join(folder, `${name}.log`) },
      env: { ...env, BOT_TOKEN: rehearsal.token, MECHANIC_IDS: '501', DATA_DIR: folder },
    });
  const ours = start('benchhand', 'config/commands/start.js', ['--only', 'bot,workers']);
  const libraries = start('libraries', 'tests/bench/support/libraries.js', []);
  await rehearsal.polled({ timeoutMs: 30_000 });
  const mechanic = rehearsal.person({ id: 501, firstName: 'Hettie', started: true });
  await mechanic.say('new job: Ketterby 500 single, owner Mrs Dale, came in boxes');
  await mechanic.say('front rim rusty, send it for chrome, 90 quid');
  await rehearsal.quiet();
  await sleep(REST_MS);
  const [mine, theirs] = [await residentMb(ours.pid), await residentMb(libraries.pid)];
  await Promise.all([ours.stop(), libraries.stop()]);
  await rehearsal.stop();
  await rm(folder, { recursive: true, force: true });
  printTable('memory at rest of the whole service, in one process', 'node with the same libraries loaded', [
    { what: 'resident', ours: mine, baseline: theirs, unit: 'MB', atMost: 1.5 },
  ]);
});
