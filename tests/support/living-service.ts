import { Api } from 'grammy';
import type { Logger } from 'pino';
import type { Parts, Service } from '../../config/service/service.js';
import { startService } from '../../config/service/service.js';
import { connectForRecord, connectForWorker } from '../../config/redis/connect.js';
import type { Settings } from '../../config/settings.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import { WORKERS } from '../../workers/workers.js';
import type { TestRedis } from './redis.js';

const WHOLE: Parts = { bot: true, workers: WORKERS };

/** Starts a service as `npm start` does, with connections of its own; what it gives ends all of it. */
export async function startLivingService(
  redis: TestRedis,
  settings: Settings,
  log: Logger,
  parts = WHOLE,
): Promise<Service['stop']> {
  const record = await connectForRecord({ url: redis.url, name: 'record', log });
  const queues = await connectForRecord({ url: redis.url, name: 'queues', log });
  const worker = connectForWorker({ url: redis.url, name: 'worker', log });
  const close = (): void => [record, queues, worker].forEach((connection) => connection.disconnect());
  const its = { record, queues, worker, close: () => Promise.resolve() };
  const me = await new Api(settings.botToken, { apiRoot: settings.botApiRoot }).getMe();
  const service = await startService(settings, DEFAULT_POLICY, its, me, parts, log);
  return async (hurry) => {
    await service.stop(hurry);
    close();
  };
}
