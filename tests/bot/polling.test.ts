import { Bot } from 'grammy';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { BenchContext } from '../../bot/context.js';
import { pollUpdates } from '../../bot/polling.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';

let rehearsal: Rehearsal;

beforeAll(async () => {
  rehearsal = await startRehearsal({ now: Date.now });
});
afterAll(() => rehearsal.stop());

/** A bot that polls until it is stopped, and does this with what it hears. */
function listen(handle: (text: string) => Promise<void>): { stop: () => Promise<void> } {
  const stopping = new AbortController();
  const bot = new Bot<BenchContext>(rehearsal.token, { client: { apiRoot: rehearsal.url } });
  bot.on('message:text', (ctx) => handle(ctx.message.text));
  const ended = pollUpdates(bot, { pollSeconds: 30, listening: () => undefined, signal: stopping.signal });
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
