import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Scene } from './scene.js';
import { openScene, readBy, triesOfUpdates } from './scene.js';

let shop: Scene;
beforeAll(async () => {
  shop = await openScene('Friday 13 March');
});
afterAll(() => shop.stop());

/** From the owner, in a shape that no chat service would make: its handling always fails. */
const poison = (): Record<string, unknown> => ({
  message: {
    ...{ message_id: 777, date: 1_773_046_800, from: shop.owner.user },
    chat: { id: shop.owner.chatId, type: 'private', first_name: 'Ada' },
    text: { not: 'a text' },
  },
});

it('a poison update: three tries, kept raw, the mechanics told, confirmed', async () => {
  const before = readBy(shop.mechanic).length;
  await shop.rehearsal.inject(poison());
  await shop.driver.quiet();
  expect(triesOfUpdates(shop)).toBe(3);
  const kept = await shop.record.inbox.poisoned();
  expect(kept).toMatchObject([{ raw: { message: { text: { not: 'a text' } } } }]);
  const told = readBy(shop.mechanic).slice(before);
  expect(told).toEqual([expect.stringMatching(/could not|couldn’t|went wrong/)]);
  expect(readBy(shop.owner).at(-1)).toMatch(/went wrong at my end/);
});

it('what comes after it is handled, and it does not come back with a restart', async () => {
  const tries = triesOfUpdates(shop);
  expect(await shop.say(shop.mechanic, 'left footrest bent')).toMatch(/left footrest: bent/);
  await shop.switchOff();
  await shop.switchOn();
  expect(await shop.say(shop.mechanic, 'seat torn')).toMatch(/seat: split/);
  expect(triesOfUpdates(shop)).toBe(tries);
  expect(await shop.record.inbox.poisoned()).toHaveLength(1);
});

it('“are you well?” is answered still', async () => {
  expect(await shop.say(shop.mechanic, 'are you well?')).toMatch(/No message is failing/);
});
