import { GrammyError } from 'grammy';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { waitAfter } from '../../../bot/patience.js';
import { waitFor } from '../../../workers/queues.js';
import type { Scene } from './scene.js';
import {
  at,
  chasers,
  contactStream,
  eventsOf,
  expectNothingTwice,
  openScene,
  readBy,
  until,
  wakeAt,
} from './scene.js';

let shop: Scene;
beforeAll(async () => {
  shop = await openScene('Friday 13 March');
  await shop.driver.moveTo(at('2026-03-16T08:59Z'));
});
afterAll(() => shop.stop());

// Source: Bot API documentation, ResponseParameters.retry_after: "the number of seconds left to wait before the request can be repeated"
it('429 storms: no message is tried again before the time the server asked for, nothing is lost, nothing doubled', async () => {
  const { rehearsal, plater, mechanic, driver } = shop;
  const calls: { at: number; refused: boolean }[] = [];
  rehearsal.on('call', ({ method, errorCode }) => {
    if (method === 'sendMessage') calls.push({ at: performance.now(), refused: errorCode === 429 });
  });
  const before = readBy(mechanic).length;
  rehearsal.fail({ kind: '429', method: 'sendMessage', retryAfter: 1, times: 4 });
  await wakeAt(shop, at('2026-03-16T09:00Z'));
  await mechanic.say('left footrest bent');
  await driver.quiet();
  expect(calls.map(({ refused }) => refused)).toEqual([true, true, true, true, false, false]);
  // Two messages are on their way, so that of any three calls the third is a try again.
  // A timer may fire a millisecond early by the clock that measures it.
  for (const [index, { at: third }] of calls.slice(2).entries())
    expect(third - (calls[index]?.at ?? 0)).toBeGreaterThanOrEqual(999);
  expect(chasers(plater)).toHaveLength(1);
  const said = readBy(mechanic).slice(before);
  expect(said.filter((text) => /left footrest: bent/.test(text))).toHaveLength(1);
  // Turned away is no repeat: the server said that it did nothing.
  for (const person of [plater, mechanic]) {
    const sent = await eventsOf(shop, await contactStream(shop, person), 'message-sent');
    expect(sent.filter((data) => (data as { perhapsRepeated: boolean }).perhapsRepeated)).toEqual([]);
  }
  await expectNothingTwice(shop);
});

it('a pause that a worker was told of holds the bot’s answers too: no try within it, and one answer after it', async () => {
  const { rehearsal, plater, mechanic, driver } = shop;
  await driver.moveTo(at('2026-03-19T08:59Z'));
  const calls: { at: number; refused: boolean }[] = [];
  const deaf = rehearsal.on('call', ({ method, errorCode }) => {
    if (method === 'sendMessage') calls.push({ at: performance.now(), refused: errorCode === 429 });
  });
  const [before, chased] = [readBy(mechanic).length, chasers(plater).length];
  rehearsal.fail({ kind: '429', method: 'sendMessage', retryAfter: 2, times: 1 });
  await wakeAt(shop, at('2026-03-19T09:00Z'));
  await until('the second chaser was turned away', () => calls.length === 1);
  await mechanic.say('right footrest bent');
  await driver.quiet();
  deaf();
  expect(calls.map(({ refused }) => refused)).toEqual([true, false, false]);
  expect((calls[1]?.at ?? 0) - (calls[0]?.at ?? 0)).toBeGreaterThanOrEqual(1_999);
  expect(chasers(plater)).toHaveLength(chased + 1);
  expect(readBy(mechanic).slice(before)).toEqual([expect.stringMatching(/right footrest: bent/)]);
  expect(shop.warnings.some((line) => line.includes('asked for a pause'))).toBe(true);
});

it('429 that asks for longer than a call may take: the next try waits as long as was asked, in the queue and in the bot', () => {
  const tooMany = new GrammyError(
    'Call failed',
    { ok: false, error_code: 429, description: 'Too Many Requests', parameters: { retry_after: 120 } },
    'sendMessage',
    {},
  );
  expect(waitFor(1, tooMany)).toBe(120_000);
  expect(waitFor(9, tooMany)).toBe(256_000);
  expect(waitFor(1, new Error('anything else'))).toBe(1_000);
  expect(waitAfter(0, tooMany)).toBe(120_000);
  expect(waitAfter(0, new Error('anything else'))).toBe(250);
});
