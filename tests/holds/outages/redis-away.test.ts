import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Scene } from './scene.js';
import {
  at,
  chasers,
  eventsOf,
  expectNothingTwice,
  jobStream,
  MINUTE,
  openScene,
  triesOfUpdates,
  until,
  wakeAt,
} from './scene.js';

let shop: Scene;
beforeAll(async () => {
  shop = await openScene('Friday 13 March');
});
afterAll(() => shop.stop());

it('Redis away for a minute: what is said waits unconfirmed, and is recorded and answered once when it is back', async () => {
  const { mechanic, redis, driver } = shop;
  const before = mechanic.messages().length;
  await redis.kill();
  await mechanic.say('left footrest bent');
  await until('the update was tried twice', () => triesOfUpdates(shop) >= 2);
  expect(mechanic.messages()).toHaveLength(before + 1);
  await redis.restart();
  await shop.setClock(driver.now() + MINUTE);
  await driver.quiet();
  expect(
    mechanic
      .messages()
      .slice(before)
      .map(({ by }) => by),
  ).toEqual(['person', 'bot']);
  expect(mechanic.last()?.text).toMatch(/left footrest: bent/);
  const listed = await eventsOf(shop, await jobStream(shop), 'item-listed');
  expect(JSON.stringify(listed).match(/footrest/g)).toHaveLength(1);
  expect(await eventsOf(shop, await jobStream(shop), 'finding-logged')).toHaveLength(1);
  expect(await shop.record.inbox.poisoned()).toEqual([]);
});

it('Redis gone the moment a message falls due: it goes once, when Redis is back', async () => {
  const { plater, redis, driver } = shop;
  await driver.moveTo(at('2026-03-16T08:59Z'));
  await wakeAt(shop, at('2026-03-16T09:00Z'));
  await redis.kill();
  await redis.restart();
  // The wake that met no Redis may be tried again a second later, which `quiet` takes for a wake that waits for its minute.
  await until('the message went', () => chasers(plater).length > 0);
  await driver.quiet();
  expect(chasers(plater)).toHaveLength(1);
  await driver.moveTo(at('2026-03-16T17:00Z'));
  expect(chasers(plater)).toHaveLength(1);
  await expectNothingTwice(shop);
});

it('what was acknowledged before Redis went is there afterwards', async () => {
  expect(await shop.say(shop.mechanic, 'strip list')).toMatch(/rim[^]*footrest/);
});
