import type { Redis } from 'ioredis';
import type { Logger } from 'pino';
import { isHalfRestored } from '../../src/record/index.js';
import { connectForRecord, connectForWorker } from '../redis/connect.js';
import { inspectRedis } from '../redis/inspect-redis.js';
import { startPrivateRedis } from '../redis/private-redis.js';
import type { Settings } from '../settings.js';

const HALF_RESTORED =
  'A restore of this shop broke off half way: empty its keys, or choose another SHOP_KEY, and restore again.';

export type ServiceRedis = {
  record: Redis;
  /** For adding to queues. BullMQ gives a connection some sixty scripts, and ioredis hands each of them to every transaction. */
  queues: Redis;
  /** For workers, which wait while the server is away. */
  worker: Redis;
  close: () => Promise<void>;
};

export type RedisReady = { ok: true; redis: ServiceRedis } | { ok: false; problems: readonly string[] };

/** The Redis of the settings, or a private one started for this service; refused where the record would not be safe in it. */
export async function readyRedis(settings: Settings, log: Logger): Promise<RedisReady> {
  const own = settings.redisUrl === null ? await startPrivateRedis({ dataDir: settings.dataDir, log }) : null;
  if (own?.ok === false) return { ok: false, problems: [own.problem] };
  const stopOwn = async (): Promise<void> => own?.redis.stop();
  const url = own?.redis.url ?? settings.redisUrl;
  if (url === null) throw new Error('without REDIS_URL a private Redis was started');
  try {
    const record = await connectForRecord({ url, name: 'record', log });
    const inspection = await inspectRedis(record);
    const { warnings } = inspection;
    const refusals = [...inspection.refusals];
    if (await isHalfRestored(record, settings.shopKey)) refusals.push(HALF_RESTORED);
    if (refusals.length > 0) {
      record.disconnect();
      await stopOwn();
      return { ok: false, problems: refusals };
    }
    for (const warning of warnings) log.warn({}, warning);
    const queues = await connectForRecord({ url, name: 'queues', log });
    const worker = connectForWorker({ url, name: 'worker', log });
    const close = async (): Promise<void> => {
      worker.disconnect();
      queues.disconnect();
      record.disconnect();
      await stopOwn();
    };
    return { ok: true, redis: { record, queues, worker, close } };
  } catch (error) {
    await stopOwn();
    throw error;
  }
}
