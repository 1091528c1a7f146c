import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import type { Driver } from '../../config/demo/driver.js';
import { createDriver, rehearsalTime } from '../../config/demo/driver.js';
import type { Service } from '../../config/service/service.js';
import { startService } from '../../config/service/service.js';
import { readSettings } from '../../config/settings.js';
import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { ShopRecord } from '../../src/record/index.js';
import { openRecord } from '../../src/record/index.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import { closeQueues, openQueues } from '../../workers/queues.js';
import { WORKERS } from '../../workers/workers.js';
import { startTestRedis } from './redis.js';

export type LivingShop = {
  rehearsal: Rehearsal;
  record: ShopRecord;
  driver: Driver;
  mechanic: Person;
  /** Says something and waits until all is quiet; gives what the person then reads last. */
  say: (person: Person, text: string) => Promise<string>;
  /** Invites somebody whom the mechanic has named, and lets them in. */
  letIn: (name: string, person: Person) => Promise<void>;
  stop: () => Promise<void>;
};

const MECHANIC = 9001;

/** A whole shop in one process: real Redis, BullMQ and grammY over HTTP against the rehearsal server, its clock driven. */
export async function startLivingShop(startAt: number): Promise<LivingShop> {
  const time = rehearsalTime(startAt);
  const redis = await startTestRedis();
  const filesDir = await mkdtemp(join(tmpdir(), 'benchhand-living-'));
  const rehearsal = await startRehearsal({ now: time.now });
  const settings = readSettings({
    BOT_TOKEN: rehearsal.token,
    BOT_API_ROOT: rehearsal.url,
    MECHANIC_IDS: String(MECHANIC),
    FILES_DIR: filesDir,
    SHOP_KEY: 'living',
    REHEARSAL_CLOCK: 'true',
  });
  if (!settings.ok) throw new Error(settings.problems.join('\n'));
  const connection = redis.connect();
  const record = openRecord({ redis: connection, shop: 'living', filesDir });
  await record.clock.set(startAt);
  const queues = openQueues(connection, 'living');
  const worker = redis.connect({ maxRetriesPerRequest: null });
  const service: Service = await startService(
    settings.settings,
    DEFAULT_POLICY,
    { record: connection, worker, close: () => Promise.resolve() },
    { bot: true, workers: WORKERS },
    pino({ level: 'silent' }),
  );
  const driver = createDriver({ time, record, queues, rehearsal });
  const mechanic = rehearsal.person({ id: MECHANIC, firstName: 'Wren' });
  await rehearsal.polled({ timeoutMs: 10_000 });

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
    await service.stop(AbortSignal.timeout(3_000));
    await closeQueues(queues);
    await record.close();
    await rehearsal.stop();
    await redis.stop();
    await rm(filesDir, { recursive: true, force: true });
  };
  return { rehearsal, record, driver, mechanic, say, letIn, stop };
}
