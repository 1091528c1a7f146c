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
  triesOfUpdates,
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

it('a web page in place of an answer, to a message and to a mechanic: tried again as 5xx is, recorded once, nothing lost', async () => {
  const { rehearsal, mechanic, plater, driver } = shop;
  const [answered, chased] = [readBy(mechanic).length, chasers(plater).length];
  const callOff = rehearsal.fail({ kind: 'page', method: 'sendMessage', times: 1_000 });
  await wakeAt(shop, at('2026-03-19T09:00Z'));
  await until('the first try failed', async () => (await shop.queues.send.getDelayedCount()) > 0);
  await mechanic.say('right footrest bent');
  const tries = triesOfUpdates(shop);
  await until('the update was tried', () => triesOfUpdates(shop) > tries);
  expect(readBy(mechanic)).toHaveLength(answered);
  expect(chasers(plater)).toHaveLength(chased);
  callOff();
  await promote(shop.queues);
  await driver.quiet();
  const answers = readBy(mechanic).slice(answered);
  expect(answers.filter((text) => text.includes('right footrest: bent'))).toHaveLength(1);
  expect(chasers(plater)).toHaveLength(chased + 1);
  expect((await shop.say(mechanic, 'strip list')).match(/right footrest/g)).toHaveLength(1);
  expect(await shop.record.inbox.poisoned()).toEqual([]);
  await expectNothingTwice(shop);
});

it('a web page in place of the updates: asked for again, and what was said meanwhile is answered once', async () => {
  const { rehearsal, mechanic, driver } = shop;
  const before = readBy(mechanic).length;
  let pages = 0;
  rehearsal.on('call', ({ method, outcome }) => {
    if (method === 'getUpdates' && outcome === 'lost') pages += 1;
  });
  // The poll in hand ends with the first of the two; the one after it meets the page.
  const callOff = rehearsal.fail({ kind: 'page', method: 'getUpdates', times: 1_000 });
  await mechanic.say('front mudguard dented');
  await until('a poll met the page', () => pages > 0);
  await mechanic.say('rear mudguard dented');
  callOff();
  await driver.quiet();
  expect(readBy(mechanic).slice(before)).toEqual([
    expect.stringMatching(/front mudguard: dented/),
    expect.stringMatching(/rear mudguard: dented/),
  ]);
});
