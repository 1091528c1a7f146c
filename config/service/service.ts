import { createHmac, randomUUID } from 'node:crypto';
import { Api } from 'grammy';
import type { UserFromGetMe } from 'grammy/types';
import type { Logger } from 'pino';
import { makeBot } from '../../bot/bot.js';
import { makeChatPause } from '../../bot/say/pause.js';
import { openDesk } from '../../src/desk/open-desk.js';
import { upcast } from '../../src/job/upcast.js';
import { openRecord } from '../../src/record/index.js';
import type { Policy } from '../../src/shop/policy.js';
import type { Running } from '../../workers/deps.js';
import { closeQueues, openQueues } from '../../workers/queues.js';
import type { WorkerName } from '../../workers/workers.js';
import { startWorkers } from '../../workers/workers.js';
import { shopClock } from '../clock.js';
import type { Settings } from '../settings.js';
import { canListen, startListening } from './listening.js';
import { lookOutside } from './outside.js';
import type { Poller } from './poller.js';
import { startPolling } from './poller.js';
import type { ServiceRedis } from './redis.js';

export type Parts = { bot: boolean; workers: readonly WorkerName[] };

export type Service = {
  /** Settles when the bot can poll no more; never while it can. */
  ended: Promise<void>;
  /** Drains; when `hurry` fires, what is still in hand is let go. */
  stop: (hurry: AbortSignal) => Promise<void>;
};

/** Wires record, desk, bot and workers together, and starts the parts asked for. */
export async function startService(
  settings: Settings,
  policy: Policy,
  redis: ServiceRedis,
  me: UserFromGetMe,
  parts: Parts,
  log: Logger,
): Promise<Service> {
  const { botToken: token, botApiRoot: apiRoot, chatTimeoutSeconds: timeoutSeconds } = settings;
  const holder = `${process.pid}-${randomUUID().slice(0, 8)}`;
  const record = openRecord({
    redis: redis.record,
    shop: settings.shopKey,
    filesDir: settings.filesDir,
    logger: log,
    upcast,
  });
  const clock = shopClock(record, settings.rehearsalClock);
  const api = new Api(token, { apiRoot, timeoutSeconds });
  const queues = openQueues(redis.queues, settings.shopKey);
  const desk = openDesk({
    record,
    log,
    policyFromFile: policy,
    canListen: canListen(settings),
    secretOf: (asked) =>
      createHmac('sha256', token).update(asked).digest().subarray(0, 24).toString('base64url'),
    linkFor: (secret) => `https://t.me/${me.username}?start=${secret}`,
    outside: lookOutside({ redis: redis.record, record, queues, settings }),
  });
  await desk.letIn(settings.mechanicIds, await clock.now());
  const pause = makeChatPause({
    began: (ms) => {
      log.warn({ seconds: Math.ceil(ms / 1_000) }, 'the chat’s server asked for a pause');
      // For the workers of other processes too.
      queues.send
        .rateLimit(ms)
        .catch((error: unknown) => log.warn({ err: error }, 'the pause could not be set for all'));
    },
  });
  api.config.use(pause.transformer);
  const recognise = startListening(settings, desk, log, parts.workers.includes('transcribe'));
  const workers = await startWorkers(
    {
      ...{ desk, record, clock, log, api, pause, queues, token, apiRoot },
      connection: redis.worker,
      recognise,
      concurrency: settings.workerConcurrency,
      lockMs: settings.workerLockMs,
    },
    parts.workers,
    holder,
  );
  const poller = parts.bot ? startBot() : null;

  function startBot(): { poller: Poller; halt: AbortController } {
    const halt = new AbortController();
    const mechanicChats = settings.mechanicIds;
    const bot = makeBot({
      desk,
      record,
      clock,
      log,
      mechanicChats,
      token,
      apiRoot,
      timeoutSeconds,
      botInfo: me,
      pause,
      signal: halt.signal,
    });
    const times = { leaseMs: settings.workerLockMs / 2, pollSeconds: Math.floor(timeoutSeconds / 2) };
    return { poller: startPolling(bot, record, holder, times, log), halt };
  }

  return {
    ended: poller?.poller.ended ?? new Promise(() => undefined),
    stop: async (hurry) => {
      hurry.addEventListener('abort', () => poller?.halt.abort(), { once: true });
      await poller?.poller.stop();
      await Promise.all(workers.map((worker: Running) => worker.stop(hurry)));
      await closeQueues(queues);
      await record.close();
    },
  };
}
