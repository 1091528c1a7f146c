import { mkdir, mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { setTimeout as pause } from 'node:timers/promises';
import type { Redis } from 'ioredis';
import { destination } from 'pino';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import { openRecord } from '../../src/record/index.js';
import type { ShopRecord } from '../../src/record/types.js';
import { closeQueues, openQueues } from '../../workers/queues.js';
import type { Queues } from '../../workers/queues.js';
import { makeLogger } from '../logging.js';
import { connectForRecord } from '../redis/connect.js';
import { startPrivateRedis } from '../redis/private-redis.js';
import type { PrivateRedis } from '../redis/private-redis.js';
import { projectRoot } from '../setup/project.mjs';
import { createDriver, rehearsalTime } from './driver.js';
import type { Driver } from './driver.js';
import { startServiceProcess } from './service-process.js';
import type { ServiceProcess } from './service-process.js';

export type StageOptions = {
  /** Unix milliseconds at which the rehearsal begins. */
  startAt: number;
  /** The shop's settings, YAML. */
  shopFile: string;
  /** Chat ids of the mechanics from the start. */
  mechanics: readonly number[];
  /** Where everything is kept. (Default: a new folder among the machine's temporary ones) */
  folder?: string;
  /** The service in parts, each a process of its own, as `--only` names them. */
  parts?: readonly string[];
  /** More of the service's environment, such as SPEECH_COMMAND. */
  env?: Readonly<Record<string, string>>;
  /** The compiled start command. (Default: the one in dist) */
  program?: string;
  /** When Redis's writes reach the disk. (Default: each second, which is quicker) */
  fsync?: 'always' | 'everysec';
  /** How long the shop may take to come to rest, machine time. (Default: 20 s) */
  patienceMs?: number;
};

/** A shop in rehearsal: chat server, Redis, and the service as processes of its own, all under one clock. */
export type Stage = {
  folder: string;
  shop: string;
  rehearsal: Rehearsal;
  record: ShopRecord;
  queues: Queues;
  driver: Driver;
  redisUrl: string;
  processes: readonly ServiceProcess[];
  /** Kills a process at once, as a power cut would, or has it stop in good order, and starts it again. */
  replace: (name: string, how?: 'kill' | 'stop') => Promise<void>;
  /** Kills Redis; its keeper starts it again. Resolves when it answers. */
  killRedis: () => Promise<void>;
  /** Never resolves; rejects when a process ends that was not told to, with the end of its log. */
  failed: Promise<never>;
  /** Ends everything, in good order. The folder stays. */
  stop: () => Promise<void>;
};

export const SERVICE_PARTS = ['bot', 'relay,wake,send', 'fetch,transcribe'];

const SHOP = 'rehearsal';

/** The start command beside this file where both are compiled; where this is run from its source, the one in dist. */
const START = import.meta.url.endsWith('.js')
  ? fileURLToPath(new URL('../commands/start.js', import.meta.url))
  : join(projectRoot, 'dist/config/commands/start.js');

/** Sets a rehearsal up. What was started is ended again where a later part can't be. */
export async function openStage(options: StageOptions): Promise<Stage> {
  const folder = options.folder ?? (await mkdtemp(join(tmpdir(), 'benchhand-demo-')));
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const ends: (() => Promise<unknown>)[] = [];
  const stop = async (): Promise<void> => {
    for (const end of ends.splice(0).reverse()) await end();
  };
  try {
    return await setUp(options, folder, ends, stop);
  } catch (error) {
    await stop();
    throw error;
  }
}

async function setUp(
  options: StageOptions,
  folder: string,
  ends: (() => Promise<unknown>)[],
  stop: () => Promise<void>,
): Promise<Stage> {
  const log = makeLogger({
    level: 'info',
    service: 'stage',
    destination: destination({ dest: join(folder, 'stage.log'), sync: true }),
  });
  const redis = await privateRedis(folder, options.fsync ?? 'everysec', log);
  ends.push(() => redis.stop());
  const time = rehearsalTime(options.startAt);
  const rehearsal = await startRehearsal({ now: time.now });
  ends.push(() => rehearsal.stop());
  const connection = await connectForRecord({ url: redis.url, name: 'stage', log });
  ends.push(() => Promise.resolve(connection.disconnect()));
  const filesDir = join(folder, 'files');
  const record = openRecord({ redis: connection, shop: SHOP, filesDir, logger: log });
  const queues = openQueues(connection, SHOP);
  ends.push(() => closeQueues(queues).then(() => record.close()));
  await record.clock.set(options.startAt);
  const shopFile = join(folder, 'shop.yaml');
  await writeFile(shopFile, options.shopFile);
  const env = {
    ...process.env,
    ...{ BOT_TOKEN: rehearsal.token, BOT_API_ROOT: rehearsal.url, REDIS_URL: redis.url },
    ...{ REHEARSAL_CLOCK: 'true', FILES_DIR: filesDir, DATA_DIR: folder, SHOP_KEY: SHOP },
    ...{
      SHOP_FILE: shopFile,
      MECHANIC_IDS: options.mechanics.join(','),
      LOG_LEVEL: process.env['LOG_LEVEL'] ?? 'info',
    },
    ...options.env,
  };
  const program = options.program ?? START;
  const { failed, watch } = watchEnds();
  const start = (part: string): ServiceProcess =>
    watch(
      startServiceProcess({
        name: part,
        program,
        args: ['--only', part],
        env,
        logFile: join(folder, `${part.replaceAll(',', '-')}.log`),
      }),
    );
  const processes = (options.parts ?? SERVICE_PARTS).map(start);
  const replace = async (name: string, how: 'kill' | 'stop' = 'kill'): Promise<void> => {
    const at = processes.findIndex((each) => each.name === name);
    await processes[at]?.[how]();
    processes[at] = start(name);
  };
  let redisPid = await processOf(connection);
  const killRedis = async (): Promise<void> => {
    // At once: whoever kills it has waited for this moment.
    process.kill(redisPid, 'SIGKILL');
    await untilAnswers(connection);
    redisPid = await processOf(connection);
  };
  ends.push(() => Promise.all(processes.map((each) => each.stop())));
  await Promise.race([rehearsal.polled({ timeoutMs: 30_000 }), failed]);
  const { patienceMs } = options;
  const patience = patienceMs === undefined ? {} : { patienceMs };
  const driver = createDriver({ time, record, queues, rehearsal, ...patience });
  await Promise.race([driver.quiet(), failed]);
  return {
    ...{
      folder,
      shop: SHOP,
      rehearsal,
      record,
      queues,
      driver,
      redisUrl: redis.url,
      processes,
      replace,
      killRedis,
      failed,
    },
    stop,
  };
}

async function processOf(connection: Redis): Promise<number> {
  return Number(/process_id:(\d+)/.exec(await connection.info('server'))?.[1]);
}

const ANSWERS_WITHIN_MS = 15_000;

async function untilAnswers(connection: Redis): Promise<void> {
  const deadline = performance.now() + ANSWERS_WITHIN_MS;
  for (;;) {
    try {
      await connection.ping();
      return;
    } catch (error) {
      if (performance.now() > deadline) throw error;
      await pause(20);
    }
  }
}

async function privateRedis(
  folder: string,
  fsync: 'always' | 'everysec',
  log: Parameters<typeof startPrivateRedis>[0]['log'],
): Promise<PrivateRedis> {
  const started = await startPrivateRedis({ dataDir: folder, fsync, log });
  if (!started.ok) throw new Error(started.problem);
  return started.redis;
}

/** Of processes started, and started again: the first that ends untold. */
function watchEnds(): { failed: Promise<never>; watch: (each: ServiceProcess) => ServiceProcess } {
  let fail: (error: Error) => void = () => undefined;
  const failed = new Promise<never>((_, reject) => {
    fail = reject;
  });
  // Whoever waits is told; where nobody does yet, it is no crash.
  failed.catch(() => undefined);
  const watch = (each: ServiceProcess): ServiceProcess => {
    void each.ended.then(({ code, signal }) => {
      if (each.isStopping()) return;
      fail(new Error(`the process '${each.name}' ended (${signal ?? `code ${code}`}):\n${each.logTail()}`));
    });
    return each;
  };
  return { failed, watch };
}
