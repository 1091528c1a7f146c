import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Scene } from './scene.js';
import {
  at,
  chasers,
  contactStream,
  eventsOf,
  openScene,
  promote,
  tryAgain,
  until,
  wakeAt,
} from './scene.js';

let shop: Scene;
let theirs: string;
beforeAll(async () => {
  shop = await openScene('Friday 13 March');
  theirs = await contactStream(shop, shop.plater);
  await shop.driver.moveTo(at('2026-03-16T08:59Z'));
});
afterAll(() => shop.stop());

it('the chat server away past their hours: it goes in the morning, not at night, marked as perhaps repeated', async () => {
  const { rehearsal, plater, driver } = shop;
  // The connection breaks after the message went in: nobody can say whether it arrived.
  const callOff = rehearsal.fail({ kind: 'drop', method: 'sendMessage', times: 100 });
  await wakeAt(shop, at('2026-03-16T09:00Z'));
  await tryAgain(shop, 2);
  await until('the last try failed', async () => (await shop.queues.send.getDelayedCount()) > 0);
  await shop.setClock(at('2026-03-16T23:00Z'));
  callOff();
  await promote(shop.queues);
  await driver.quiet();
  expect(chasers(plater)).toEqual([]);

  await driver.moveTo(at('2026-03-17T09:00Z'));
  expect(chasers(plater)).toHaveLength(1);
  const sent = await eventsOf(shop, theirs, 'message-sent');
  expect(sent.at(-1)).toMatchObject({ perhapsRepeated: true });
});
