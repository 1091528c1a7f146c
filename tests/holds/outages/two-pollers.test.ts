import { Api } from 'grammy';
import type { Update } from 'grammy/types';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeBot } from '../../../bot/bot.js';
import { makeKeys } from '../../../src/record/keys.js';
import { MECHANIC_CHAT } from '../../support/desk.js';
import { startLivingService } from '../../support/living-service.js';
import type { WholeBot } from '../../support/whole-bot.js';
import { openWholeBot } from '../../support/whole-bot.js';
import type { Scene } from './scene.js';
import { eventsOf, expectNothingTwice, jobStream, openScene, readBy, until } from './scene.js';

const tellsOfAnother = (line: string): boolean =>
  line.includes('another service polls with this bot’s token');

describe('two services with one bot’s token', () => {
  let shop: Scene;
  /** Answers of 409 to somebody's poll. */
  let conflicts = 0;
  beforeAll(async () => {
    // Half of the lock is how long one that polls may be dead before another takes over (config/service/service.ts).
    shop = await openScene('Friday 13 March', {
      env: { WORKER_LOCK_SECONDS: '1', CHAT_TIMEOUT_SECONDS: '2' },
    });
    shop.rehearsal.on('call', ({ method, errorCode }) => {
      if (method === 'getUpdates' && errorCode === 409) conflicts += 1;
    });
  });
  afterAll(() => shop.stop());

  /** Says it, reads the one answer, and finds the one item more. */
  async function saidOnce(part: string): Promise<void> {
    const job = await jobStream(shop);
    const listed = (await eventsOf(shop, job, 'item-listed')).length;
    const before = readBy(shop.mechanic).length;
    await shop.say(shop.mechanic, `${part} bent`);
    expect(readBy(shop.mechanic).slice(before)).toEqual([expect.stringContaining(`${part}: bent`)]);
    expect(await eventsOf(shop, job, 'item-listed')).toHaveLength(listed + 1);
  }

  it('on one Redis: the second waits for the lease, one polls, and all goes on as before', async () => {
    const redis = shop.redis.connect();
    const key = makeKeys(shop.record.shop).lease('poller');
    const holder = await redis.get(key);
    await shop.switchOn();
    await saidOnce('left footrest');
    await saidOnce('right footrest');
    expect(holder).not.toBeNull();
    expect(await redis.get(key)).toBe(holder);
    expect(conflicts).toBe(0);
  });

  it('on one Redis, the lease run out unnoticed as by a pause of the machine: the other takes it, nothing is done twice', async () => {
    const redis = shop.redis.connect();
    const key = makeKeys(shop.record.shop).lease('poller');
    const first = await redis.get(key);
    expect(first).not.toBeNull();
    await redis.set(key, 'somebody-else', 'PX', 300);
    await until(
      'the lease was taken again',
      async () => ![null, 'somebody-else'].includes(await redis.get(key)),
    );
    await saidOnce('front mudguard');
    await saidOnce('rear mudguard');
    await expectNothingTwice(shop);
  });

  it('a stranger polls with the same token: the chat server answers 409, the service polls again, what is said is heard', async () => {
    const before = conflicts;
    const stranger = new Api(shop.rehearsal.token, { apiRoot: shop.rehearsal.url });
    await until('the service’s poll was ousted', async () => {
      await stranger.getUpdates({ timeout: 0 });
      return conflicts > before;
    });
    await saidOnce('headlamp bracket');
    await until('the log says it', () => shop.warnings.some(tellsOfAnother));
  });
});

it('two shops with one bot’s token: the log of each tells of the other, and alone again it hears all', async () => {
  const env = { WORKER_LOCK_SECONDS: '1', CHAT_TIMEOUT_SECONDS: '2' };
  const shop = await openScene('Friday 13 March', { env });
  const others: string[] = [];
  const log = pino({ level: 'warn' }, { write: (line: string) => void others.push(line) });
  try {
    const settings = { ...shop.settings, shopKey: 'other', rehearsalClock: false };
    const end = await startLivingService(shop.redis, settings, log);
    try {
      await until(
        'the log of each says it',
        () => others.some(tellsOfAnother) && shop.warnings.some(tellsOfAnother),
      );
    } finally {
      await end(AbortSignal.timeout(3_000));
    }
    await shop.rehearsal.polled({ timeoutMs: 10_000 });
    const told = shop.warnings.filter(tellsOfAnother).length;
    expect(await shop.say(shop.mechanic, 'left footrest bent')).toContain('left footrest: bent');
    expect(await shop.say(shop.mechanic, 'right footrest bent')).toContain('right footrest: bent');
    expect(shop.warnings.filter(tellsOfAnother)).toHaveLength(told);
  } finally {
    await shop.stop();
  }
});

describe('one update in the hands of two bots at once', () => {
  let bot: WholeBot;
  beforeAll(async () => {
    bot = await openWholeBot([]);
    await bot.mechanic.say('new job: Ketterby 500 single, owner Mrs Dale');
    await bot.rehearsal.quiet();
  });
  afterAll(() => bot.stop());

  it('is recorded once, and both give the same answer', async () => {
    const { desk, record, rehearsal, mechanic } = bot;
    const { token, url: apiRoot } = rehearsal;
    const botInfo = await new Api(token, { apiRoot }).getMe();
    const clock = { now: () => Promise.resolve(bot.driver.now()) };
    const log = pino({ level: 'silent' });
    const { signal } = new AbortController();
    const twoBots = [1, 2].map(() =>
      makeBot({
        ...{ desk, record, clock, log, mechanicChats: [MECHANIC_CHAT] },
        ...{ token, apiRoot, botInfo, signal },
      }),
    );
    const before = mechanic.messages().length;
    const chat = { id: MECHANIC_CHAT, type: 'private' as const, first_name: 'Hettie' };
    const message = {
      message_id: 4242,
      date: 1_772_442_000,
      chat,
      from: mechanic.user,
      text: 'left footrest bent',
    };
    const update = { update_id: 987_654, message } as Update;
    await Promise.all(twoBots.map((each) => each.handleUpdate(update)));
    const job = (await record.streams()).find((each) => each.startsWith('job-'));
    const { events } = await record.events(job ?? 'shop');
    expect(events.filter(({ type }) => type === 'item-listed')).toHaveLength(1);
    expect(events.filter(({ type }) => type === 'finding-logged')).toHaveLength(1);
    const answers = mechanic
      .messages()
      .slice(before)
      .map(({ text, buttons }) => ({ text, buttons }));
    expect(answers).toHaveLength(2);
    expect(answers[0]).toEqual(answers[1]);
  });
});
