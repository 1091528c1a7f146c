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

/** The shortest that the setting allows: a call that hangs is given up after it. */
const CHAT_TIMEOUT_SECONDS = '2';

let shop: Scene;
beforeAll(async () => {
  shop = await openScene('Friday 13 March', { env: { CHAT_TIMEOUT_SECONDS } });
  await shop.driver.moveTo(at('2026-03-16T08:59Z'));
});
afterAll(() => shop.stop());

it('a send that is never answered is given up, tried again, and marked as perhaps repeated', async () => {
  const { rehearsal, plater, driver } = shop;
  rehearsal.fail({ kind: 'hang', method: 'sendMessage' });
  await wakeAt(shop, at('2026-03-16T09:00Z'));
  await until('the hanging call was given up', async () => (await shop.queues.send.getDelayedCount()) > 0);
  await promote(shop.queues);
  await driver.quiet();
  expect(chasers(plater)).toHaveLength(1);
  const sent = await eventsOf(shop, await contactStream(shop, plater), 'message-sent');
  expect(sent.at(-1)).toMatchObject({ perhapsRepeated: true });
  await expectNothingTwice(shop);
});

it('an answer to a mechanic that hangs holds up neither what is said next, nor is recorded twice', async () => {
  const { rehearsal, mechanic, driver } = shop;
  const before = readBy(mechanic).length;
  rehearsal.fail({ kind: 'hang', method: 'sendMessage' });
  await mechanic.say('left footrest bent');
  await mechanic.say('seat torn');
  await driver.quiet();
  expect(readBy(mechanic).slice(before)).toEqual([
    expect.stringMatching(/left footrest: bent/),
    expect.stringMatching(/seat: split/),
  ]);
  expect((await shop.say(mechanic, 'strip list')).match(/footrest/g)).toHaveLength(1);
});

it('a poll that hangs is given up, and what was said meanwhile is heard', async () => {
  const { rehearsal, mechanic } = shop;
  rehearsal.fail({ kind: 'hang', method: 'getUpdates' });
  const hung = new Promise<void>((resolve) =>
    rehearsal.on('call', ({ method, outcome }) => {
      if (method === 'getUpdates' && outcome === 'lost') resolve();
    }),
  );
  await hung;
  expect(await shop.say(mechanic, 'right footrest bent')).toMatch(/right footrest: bent/);
});

it('the answer lost after the message went: the record says that it may have come twice', async () => {
  const { rehearsal, plater, driver } = shop;
  await driver.moveTo(at('2026-03-19T08:59Z'));
  rehearsal.fail({ kind: 'drop', method: 'sendMessage', afterEffect: true });
  await wakeAt(shop, at('2026-03-19T09:00Z'));
  await until('the broken call was seen', async () => (await shop.queues.send.getDelayedCount()) > 0);
  await promote(shop.queues);
  await driver.quiet();
  // The first of the 16th, then this one twice: the one repeat that can't be helped.
  expect(chasers(plater)).toHaveLength(3);
  const sent = await eventsOf(shop, await contactStream(shop, plater), 'message-sent');
  expect(sent.at(-1)).toMatchObject({ perhapsRepeated: true });
});
