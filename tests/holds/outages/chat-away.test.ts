import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Scene } from './scene.js';
import {
  at,
  chasers,
  contactStream,
  eventsOf,
  expectNothingTwice,
  MINUTE,
  openScene,
  promote,
  tryAgain,
  until,
  wakeAt,
} from './scene.js';

/** Waits that double from a second come to an hour at the twelfth (workers/queues.ts). */
const TRIES_IN_AN_HOUR = 12;

let shop: Scene;
let day: string;
beforeAll(async () => {
  shop = await openScene('Friday 13 March');
  day = await contactStream(shop, shop.plater);
  await shop.driver.moveTo(at('2026-03-16T08:59Z'));
});
afterAll(() => shop.stop());

it('the chat server away for an hour: what was due goes when it is back, what was said is answered, each once', async () => {
  const { rehearsal, mechanic, plater, driver } = shop;
  const before = mechanic.messages().length;
  rehearsal.down(true);
  await mechanic.say('left footrest bent');
  await wakeAt(shop, at('2026-03-16T09:00Z'));
  await tryAgain(shop, TRIES_IN_AN_HOUR);
  await until('the last try failed', async () => (await shop.queues.send.getDelayedCount()) > 0);
  expect(chasers(plater)).toEqual([]);
  expect((await eventsOf(shop, day, 'message-attempted')).length).toBeGreaterThan(TRIES_IN_AN_HOUR);
  expect(await eventsOf(shop, day, 'message-failed')).toEqual([]);

  rehearsal.down(false);
  await shop.setClock(at('2026-03-16T10:00Z'));
  await promote(shop.queues);
  await driver.quiet();
  expect(chasers(plater)).toHaveLength(1);
  const answers = mechanic
    .messages()
    .slice(before)
    .filter(({ by, text }) => by === 'bot' && /left footrest: bent/.test(text));
  expect(answers).toHaveLength(1);
  await expectNothingTwice(shop);
});

it('and then the ladder is counted from when it went', async () => {
  const { plater, driver } = shop;
  await driver.moveTo(at('2026-03-19T08:59Z'));
  expect(chasers(plater)).toHaveLength(1);
  await driver.moveTo(at('2026-03-19T09:00Z') + MINUTE);
  expect(chasers(plater)).toHaveLength(2);
});
