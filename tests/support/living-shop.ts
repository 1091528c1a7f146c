import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import type { Settings } from '../../config/settings.js';
import type { Driver } from '../../config/demo/driver.js';
import { createDriver, rehearsalTime } from '../../config/demo/driver.js';
import { readSettings } from '../../config/settings.js';
import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { ShopRecord } from '../../src/record/index.js';
import { openRecord } from '../../src/record/index.js';
import type { Queues } from '../../workers/queues.js';
import { closeQueues, openQueues } from '../../workers/queues.js';
import { startLivingService } from './living-service.js';
import type { TestRedis } from './redis.js';
import { startTestRedis } from './redis.js';

export type LivingShop = {
  rehearsal: Rehearsal;
  record: ShopRecord;
  driver: Driver;
  mechanic: Person;
  redis: TestRedis;
  queues: Queues;
  settings: Settings;
  filesDir: string;
  /** What the service logged as a warning or worse. */
  warnings: string[];
  /** Ends the service, in good order; Redis and the chat server go on. */
  switchOff: () => Promise<void>;
  /** Starts the service, or one more; resolves when it could poll. */
  switchOn: () => Promise<void>;
  /** Sets the shop's clock, either way, without waking anybody. */
  setClock: (instant: number) => Promise<void>;
  /** Says something and waits until all is quiet; gives what the person then reads last. */
  say: (person: Person, text: string) => Promise<string>;
  /** Invites somebody whom the mechanic has named, and lets them in. */
  letIn: (name: string, person: Person) => Promise<void>;
  stop: () => Promise<void>;
};

const MECHANIC = 9001;

export type LivingShopOptions = {
  /** (Default: in a new temporary folder, removed by `stop`) */
  filesDir?: string;
  /** More of the service's settings. */
  env?: Readonly<Record<string, string>>;
  /** A Redis that is there already, and stays. (Default: one of its own) */
  redis?: TestRedis;
  /** The shop's key. (Default: living) */
  shop?: string;
};

/** A whole shop in one process: real Redis, BullMQ and grammY over HTTP against the rehearsal server, its clock driven. */
export async function startLivingShop(
  startAt: number,
  { filesDir: given, env = {}, redis: there, shop = 'living' }: LivingShopOptions = {},
): Promise<LivingShop> {
  const time = rehearsalTime(startAt);
  const redis = there ?? (await startTestRedis());
  const folder = await mkdtemp(join(tmpdir(), 'benchhand-living-'));
  const filesDir = given ?? join(folder, 'files');
  const rehearsal = await startRehearsal({ now: time.now });
  const settings = readSettings({
    BOT_TOKEN: rehearsal.token,
    BOT_API_ROOT: rehearsal.url,
    MECHANIC_IDS: String(MECHANIC),
    FILES_DIR: filesDir,
    DATA_DIR: folder,
    SHOP_KEY: shop,
    REHEARSAL_CLOCK: 'true',
    ...env,
  });
  if (!settings.ok) throw new Error(settings.problems.join('\n'));
  const connection = redis.connect();
  const record = openRecord({ redis: connection, shop, filesDir });
  await record.clock.set(startAt);
  const queues = openQueues(connection, shop);
  const warnings: string[] = [];
  const log = pino({ level: 'warn' }, { write: (line: string) => void warnings.push(line) });
  const services: Awaited<ReturnType<typeof startLivingService>>[] = [];
  const switchOn = async (): Promise<void> => {
    services.push(await startLivingService(redis, settings.settings, log));
    await rehearsal.polled({ timeoutMs: 10_000 });
  };
  const switchOff = async (): Promise<void> => {
    for (const end of services.splice(0)) await end(AbortSignal.timeout(3_000));
  };
  await switchOn();
  const driver = createDriver({ time, record, queues, rehearsal });
  const mechanic = rehearsal.person({ id: MECHANIC, firstName: 'Wren' });

  const setClock = async (instant: number): Promise<void> => {
    time.set(instant);
    await record.clock.set(instant);
  };
  const say = async (person: Person, text: string): Promise<string> => {
    await person.say(text);
    await driver.quiet();
    return person.last()?.text ?? '';
  };
  const letIn = async (name: string, person: Person): Promise<void> => {
    const link = await say(mechanic, `invite ${name}`);
    const secret = /start=([A-Za-z0-9_-]+)/.exec(link)?.[1] ?? '';
    await person.open(secret);
    await driver.quiet();
    await mechanic.press((button) => /^Yes/.test(button.text));
    await driver.quiet();
  };
  const stop = async (): Promise<void> => {
    await switchOff();
    await closeQueues(queues);
    await record.close();
    await rehearsal.stop();
    if (there === undefined) await redis.stop();
    await rm(folder, { recursive: true, force: true });
  };
  return {
    ...{ rehearsal, record, driver, mechanic, redis, queues, filesDir, warnings },
    ...{ settings: settings.settings, switchOff, switchOn, setClock, say, letIn, stop },
  };
}
