import { Bot } from 'grammy';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { BenchContext } from '../../bot/context.js';
import type { Polling } from '../../bot/polling.js';
import { pollUpdates } from '../../bot/polling.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';

let rehearsal: Rehearsal;

beforeAll(async () => {
  rehearsal = await startRehearsal({ now: Date.now });
});
afterAll(() => rehearsal.stop());

/** A bot that polls until it is stopped, and does this with what it hears. */
function listen(
  handle: (text: string) => Promise<void>,
  seen: Partial<Pick<Polling, 'away' | 'back'>> = {},
): { stop: () => Promise<void> } {
  const stopping = new AbortController();
  const bot = new Bot<BenchContext>(rehearsal.token, { client: { apiRoot: rehearsal.url } });
  bot.on('message:text', (ctx) => handle(ctx.message.text));
  const nothing = (): void => undefined;
  const told = { listening: nothing, away: nothing, back: nothing, ...seen };
  const ended = pollUpdates(bot, { pollSeconds: 30, ...told, signal: stopping.signal });
  return {
    stop: async () => {
      stopping.abort();
      await ended.catch(() => undefined);
    },
  };
}

// Confirmed is what a later getUpdates asks beyond (Bot API documentation, getUpdates, `offset`).
it('what is in hand when it is stopped comes again, what was done before does not', async () => {
  const person = rehearsal.person({ id: 77, firstName: 'Hettie', started: true });
  const heard: string[] = [];
  let giveUp: (error: Error) => void = () => undefined;
  let taken: () => void = () => undefined;
  const inHand = new Promise<void>((resolve) => {
    taken = resolve;
  });
  const first = listen(async (text) => {
    heard.push(text);
    if (text !== 'and this') return;
    taken();
    await new Promise<void>((_, reject) => {
      giveUp = reject;
    });
  });
  await rehearsal.polled();
  await person.say('do this');
  await person.say('and this');
  await inHand;
  const stopped = first.stop();
  giveUp(new Error('told to stop'));
  await stopped;
  expect(heard).toEqual(['do this', 'and this']);

  const second = listen((text) => {
    heard.push(`again: ${text}`);
    return Promise.resolve();
  });
  await rehearsal.quiet();
  await second.stop();
  expect(heard).toEqual(['do this', 'and this', 'again: and this']);
});

it('tells once that the chat’s server is away, and then that it is back', async () => {
  const told: string[] = [];
  rehearsal.fail({ kind: '500', method: 'getUpdates' });
  rehearsal.fail({ kind: 'page', method: 'getUpdates' });
  await rehearsal.person({ id: 78, firstName: 'Joss', started: true }).say('are you there?');
  await new Promise<void>((resolve, reject) => {
    const bot = listen(() => Promise.resolve(), {
      away: () => told.push('away'),
      back: () => {
        told.push('back');
        bot.stop().then(resolve, reject);
      },
    });
  });
  expect(told).toEqual(['away', 'back']);
}, 30_000);
