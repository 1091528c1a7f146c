import { setTimeout as pass } from 'node:timers/promises';
import { Api } from 'grammy';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Person } from '../../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../../bot/rehearsal/rehearsal.js';
import { makeChatPause } from '../../../bot/say/pause.js';
import { openRecord } from '../../../src/record/index.js';
import type { ShopRecord } from '../../../src/record/types.js';
import type { Running, WorkerDeps } from '../../../workers/deps.js';
import type { Queues } from '../../../workers/queues.js';
import { closeQueues, openQueues } from '../../../workers/queues.js';
import { runSend } from '../../../workers/send.js';
import type { TestRedis } from '../../support/redis.js';
import { startTestRedis } from '../../support/redis.js';
import { readBy, START, until } from './scene.js';

const CONCURRENCY = 4;
/** How long the server wants to be left alone. The same was run by hand with 30. */
const PAUSE_SECONDS = 2;

/** A send worker as a process of its own has it, over a desk that is slower about every other message to a person. */
function aProcess(redis: TestRedis, record: ShopRecord, rehearsal: Rehearsal, people: Person[]) {
  const connection = redis.connect({ maxRetriesPerRequest: null });
  const queues = openQueues(redis.connect(), record.shop);
  const pause = makeChatPause({ began: (ms) => void queues.send.rateLimit(ms) });
  const api = new Api(rehearsal.token, { apiRoot: rehearsal.url });
  api.config.use(pause.transformer);
  const sent: string[] = [];
  const desk = {
    prepareSend: (contact: string, message: string) =>
      pass(Number(message.slice(1)) % 2 === 0 ? 20 : 0, {
        ...{ outcome: 'send', chatId: people[Number(contact)]?.chatId, about: [], attempt: '1' },
        ...{ answer: { text: [message], buttons: [] }, perhapsRepeated: false },
      }),
    sent: (_contact: string, message: string) => Promise.resolve(sent.push(message)),
    postponed: () => Promise.resolve(),
  };
  const clock = { now: () => Promise.resolve(START) };
  const deps = {
    ...{ desk, record, clock, queues, connection, api, pause, concurrency: CONCURRENCY, lockMs: 30_000 },
    log: pino({ level: 'silent' }),
  };
  return { queues, sent, worker: runSend(deps as unknown as WorkerDeps) };
}

describe('the chat server wants a pause', () => {
  let redis: TestRedis;
  let rehearsal: Rehearsal;
  let record: ShopRecord;
  let people: Person[];
  const running: { worker: Running; queues: Queues; sent: string[] }[] = [];
  /** When each try came and whether it was turned away, ms. */
  let tries: { at: number; refused: boolean }[];

  beforeEach(async () => {
    redis = await startTestRedis();
    rehearsal = await startRehearsal({ now: () => START });
    record = openRecord({ redis: redis.connect(), shop: 'pauses', filesDir: redis.dir });
    people = [1, 2, 3].map((id) => rehearsal.person({ id: 9000 + id, firstName: `P${id}`, started: true }));
    tries = [];
    rehearsal.on('call', ({ method, errorCode }) => {
      if (method === 'sendMessage') tries.push({ at: performance.now(), refused: errorCode === 429 });
    });
  });
  afterEach(async () => {
    for (const { worker, queues } of running.splice(0)) {
      await worker.stop(AbortSignal.timeout(2_000));
      await closeQueues(queues);
    }
    await record.close();
    await rehearsal.stop();
    await redis.stop();
  });

  const start = () => {
    const its = aProcess(redis, record, rehearsal, people);
    running.push(its);
    return its;
  };
  const add = async ({ queues }: { queues: Queues }, from: number, count: number): Promise<void> => {
    for (let number = from; number < from + count; number += 1) {
      const message = `m${String(number).padStart(2, '0')}`;
      await queues.send.add('send', { contact: String(number % people.length), message }, { jobId: message });
    }
  };
  /** Longer than the second that the queue's own limit counts by. */
  const isTold = async ({ queues }: { queues: Queues }): Promise<boolean> =>
    (await queues.send.getRateLimitTtl()) > 1_000;
  const refused = (): number => tries.filter((each) => each.refused).length;
  const expectAllOnceInOrder = (count: number): void => {
    const theirs = people.map(readBy);
    expect(theirs.flat()).toHaveLength(count);
    for (const texts of theirs) expect(texts).toEqual([...new Set(texts)].sort());
  };

  it('one try and then none until it is over; then everything goes once, to each in order, and none is lost', async () => {
    const its = start();
    const storm = rehearsal.fail({
      kind: '429',
      method: 'sendMessage',
      retryAfter: PAUSE_SECONDS,
      times: 1e6,
    });
    await add(its, 0, 1);
    await until('the first was turned away', () => refused() === 1);
    await until('the queue is told', () => isTold(its));
    await add(its, 1, 23);
    setTimeout(storm, PAUSE_SECONDS * 1_000 - 100);
    await until('all is sent', () => its.sent.length === 24);
    expect(refused()).toBe(1);
    expect(tries).toHaveLength(25);
    // A timer may fire a millisecond early by the clock that measures it.
    expect((tries[1]?.at ?? 0) - (tries[0]?.at ?? 0)).toBeGreaterThanOrEqual(PAUSE_SECONDS * 1_000 - 1);
    expectAllOnceInOrder(24);
    expect(await its.queues.send.getFailedCount()).toBe(0);
  });

  it('a storm of three pauses costs what was under way, and one try a pause after it', async () => {
    const its = start();
    const storm = rehearsal.fail({ kind: '429', method: 'sendMessage', retryAfter: 1, times: 1e6 });
    await add(its, 0, 24);
    await until('three pauses were asked for', () => trials() === 2);
    storm();
    await until('all is sent', () => its.sent.length === 24);
    expect(refused()).toBeLessThanOrEqual(CONCURRENCY + 2);
    expectAllOnceInOrder(24);
  });

  /** Tries turned away that came at least half a pause after the one before. */
  const trials = (): number =>
    tries.filter(({ at, refused: is }, index) => is && index > 0 && at - (tries[index - 1]?.at ?? 0) > 500)
      .length;

  it('other processes take nothing up meanwhile, nor one that is started within it', async () => {
    const first = start();
    rehearsal.fail({ kind: '429', method: 'sendMessage', retryAfter: PAUSE_SECONDS, times: 1 });
    await add(first, 0, 1);
    await until('the queue is told', () => isTold(first));
    const second = start();
    await add(first, 1, 11);
    await until('all is sent', () => first.sent.length + second.sent.length === 12);
    expect(tries.map((each) => each.refused)).toEqual([true, ...Array<boolean>(12).fill(false)]);
    expect((tries[1]?.at ?? 0) - (tries[0]?.at ?? 0)).toBeGreaterThanOrEqual(PAUSE_SECONDS * 1_000 - 50);
    expect(people.flatMap(readBy).sort()).toEqual([...new Set(people.flatMap(readBy))].sort());
  });

  it('stopped within it, what waits is put back unspent, and goes when a worker is there again', async () => {
    const first = start();
    rehearsal.fail({ kind: '429', method: 'sendMessage', retryAfter: PAUSE_SECONDS, times: 1 });
    await add(first, 0, 1);
    await until('the first was turned away', () => refused() === 1);
    await first.worker.stop(AbortSignal.timeout(500));
    expect(await first.queues.send.getJobCounts('waiting', 'failed')).toMatchObject({
      waiting: 1,
      failed: 0,
    });
    const second = start();
    await until('it is sent', () => second.sent.length === 1);
    expect(tries).toHaveLength(2);
    expect((tries[1]?.at ?? 0) - (tries[0]?.at ?? 0)).toBeGreaterThanOrEqual(PAUSE_SECONDS * 1_000 - 50);
  });
});
