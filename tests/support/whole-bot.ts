import type { Logger } from 'pino';
import { pino } from 'pino';
import { Api } from 'grammy';
import { makeBot } from '../../bot/bot.js';
import { makeChatPause } from '../../bot/say/pause.js';
import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { Recognise } from '../../workers/recogniser.js';
import type { Running } from '../../workers/deps.js';
import { closeQueues, openQueues } from '../../workers/queues.js';
import type { Queues } from '../../workers/queues.js';
import type { WorkerName } from '../../workers/workers.js';
import { startWorkers } from '../../workers/workers.js';
import { startPolling } from '../../config/service/poller.js';
import { createDriver, rehearsalTime } from '../../config/demo/driver.js';
import type { Driver } from '../../config/demo/driver.js';
import type { DeskBench } from './desk.js';
import { DESK_START, MECHANIC_CHAT, openDeskBench } from './desk.js';

/** The whole of Benchhand in this process, against the rehearsal's chat server and a Redis of its own. */
export type WholeBot = DeskBench & {
  rehearsal: Rehearsal;
  queues: Queues;
  driver: Driver;
  mechanic: Person;
  /** What was logged as a warning or worse. */
  warnings: string[];
};

/** Opens it, with these workers, and what listens to voice notes where something does. `stop` ends all of it. */
export async function openWholeBot(
  names: readonly WorkerName[] = ['relay', 'wake', 'send', 'fetch'],
  recognise: Recognise | null = null,
): Promise<WholeBot> {
  const time = rehearsalTime(DESK_START);
  const warnings: string[] = [];
  const log: Logger = pino({ level: 'warn' }, { write: (line: string) => void warnings.push(line) });
  const rehearsal = await startRehearsal({ now: time.now });
  const bench = await openDeskBench({
    log,
    canListen: recognise !== null,
    linkFor: (secret) => `https://t.me/bot?start=${secret}`,
  });
  const { desk, record, redis } = bench;
  const connection = redis.connect({ maxRetriesPerRequest: null });
  const queues = openQueues(connection, record.shop);
  const clock = { now: () => Promise.resolve(time.now()) };
  await record.clock.set(DESK_START);
  const mechanic = rehearsal.person({ id: MECHANIC_CHAT, firstName: 'Hettie', started: true });
  const { token, url: apiRoot } = rehearsal;
  const pause = makeChatPause();
  const workers = await startWorkers(
    {
      ...{ desk, record, clock, log, queues, token, apiRoot, connection },
      api: new Api(token, { apiRoot }),
      ...{ recognise, pause, concurrency: 4, lockMs: 30_000 },
    },
    names,
    'test',
  );
  const halt = new AbortController();
  const mechanicChats = [MECHANIC_CHAT];
  const bot = makeBot({ desk, record, clock, log, mechanicChats, token, apiRoot, signal: halt.signal });
  const poller = startPolling(bot, record, 'test', { leaseMs: 15_000, pollSeconds: 30 }, log);
  await rehearsal.polled();
  return {
    ...bench,
    ...{ rehearsal, queues, mechanic, warnings },
    driver: createDriver({ time, record, queues, rehearsal }),
    stop: async () => {
      halt.abort();
      await poller.stop();
      await Promise.all(workers.map((worker: Running) => worker.stop(AbortSignal.timeout(5_000))));
      await closeQueues(queues);
      await rehearsal.stop();
      await bench.stop();
    },
  };
}
