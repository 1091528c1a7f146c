import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Scene } from './scene.js';
import {
  at,
  chasers,
  contactStream,
  eventsOf,
  expectNothingTwice,
  openScene,
  promote,
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

it('5xx: a message is tried until it goes, and says that it may have come before', async () => {
  const { rehearsal, plater, driver } = shop;
  const callOff = rehearsal.fail({ kind: '500', method: 'sendMessage', times: 1_000 });
  await wakeAt(shop, at('2026-03-16T09:00Z'));
  await until('the first try failed', async () => (await shop.queues.send.getDelayedCount()) > 0);
  expect(chasers(plater)).toEqual([]);
  callOff();
  await promote(shop.queues);
  await driver.quiet();
  expect(chasers(plater)).toHaveLength(1);
  const sent = await eventsOf(shop, await contactStream(shop, plater), 'message-sent');
  expect(sent.at(-1)).toMatchObject({ perhapsRepeated: true });
  await expectNothingTwice(shop);
});

it('5xx to what a mechanic said: it is answered once the server is well, and recorded once', async () => {
  const { rehearsal, mechanic, driver } = shop;
  const before = readBy(mechanic).length;
  rehearsal.fail({ kind: '500', method: 'sendMessage', times: 3 });
  await mechanic.say('left footrest bent');
  await driver.quiet();
  expect(readBy(mechanic).slice(before)).toEqual([expect.stringMatching(/left footrest: bent/)]);
  expect((await shop.say(mechanic, 'strip list')).match(/footrest/g)).toHaveLength(1);
});
