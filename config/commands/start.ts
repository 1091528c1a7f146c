import { parseArgs } from 'node:util';
import { Api } from 'grammy';
import { makeLogger } from '../logging.js';
import { introduce, tokenProblem } from '../service/introduce.js';
import { readyRedis } from '../service/redis.js';
import { startService } from '../service/service.js';
import { readParts } from '../service/parts.js';
import { onStopSignals } from '../stop-signals.js';
import { readSettings } from '../settings.js';
import { readShopFile } from '../shop-file.js';

/** How long what is in hand may take once we are told to stop, before it is let go. */
const DRAIN_MS = 5_000;

function refuse(problems: readonly string[]): never {
  for (const problem of problems) console.error(problem);
  process.exit(1);
}

const { values } = parseArgs({ options: { only: { type: 'string' } } });
const parts = readParts(values.only);
if (!parts.ok) refuse([parts.problem]);
const reading = readSettings(process.env);
if (!reading.ok) refuse(reading.problems);
const { settings } = reading;
if (values.only !== undefined && settings.redisUrl === null) {
  refuse([
    '--only runs a part of the service beside others: REDIS_URL must name the Redis they share, for example REDIS_URL=redis://localhost:6379',
  ]);
}
const shopFile = await readShopFile(settings.shopFile);
if (!shopFile.ok) refuse(shopFile.problems);

const log = makeLogger({
  level: settings.logLevel,
  service: values.only ?? 'all',
  secrets: [settings.botToken],
});
const ready = await readyRedis(settings, log);
if (!ready.ok) refuse(ready.problems);
const { botToken, botApiRoot: apiRoot, chatTimeoutSeconds: timeoutSeconds } = settings;
const known = await introduce(new Api(botToken, { apiRoot, timeoutSeconds }), log);
if (!known.ok) {
  await ready.redis.close();
  refuse(known.problems);
}
const service = await startService(settings, shopFile.policy, ready.redis, known.me, parts.parts, log);
log.info({ bot: parts.parts.bot, workers: parts.parts.workers }, 'Benchhand is at work');

/** Drains, and lets go of what is in hand when told to hurry. */
async function stop(hurry: AbortSignal): Promise<void> {
  await service.stop(hurry);
  if (ready.ok) await ready.redis.close();
}

const hurry = new AbortController();
onStopSignals({
  drain: () => {
    setTimeout(() => hurry.abort(), DRAIN_MS).unref();
    void stop(hurry.signal).then(() => process.exit(0));
  },
  hurry: () => hurry.abort(),
});
service.ended.catch((error: unknown) => {
  log.error({ err: error }, tokenProblem(error) ?? 'the bot cannot go on');
  void stop(AbortSignal.timeout(DRAIN_MS)).finally(() => process.exit(1));
});
