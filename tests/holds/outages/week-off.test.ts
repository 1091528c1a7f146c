import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Scene } from './scene.js';
import { at, chasers, expectNothingTwice, openScene, readBy } from './scene.js';

let shop: Scene;
beforeAll(async () => {
  shop = await openScene('Friday 13 March');
});
afterAll(() => shop.stop());

const roundUps = (): string[] => readBy(shop.mechanic).filter((text) => /overdue/i.test(text));

it('a week switched off: the earliest unsent step goes once, in their hours, and one round-up', async () => {
  const { driver, plater } = shop;
  await driver.moveTo(at('2026-03-13T18:00Z'));
  await shop.switchOff();
  // The chaser of Monday the 16th and the one after it, of the 19th, were never sent.
  await shop.setClock(at('2026-03-21T12:00Z'));
  const before = roundUps().length;
  await shop.switchOn();
  await driver.moveTo(at('2026-03-23T08:59Z'));
  expect(chasers(plater)).toEqual([]);
  expect(roundUps()).toHaveLength(before + 1);
  await driver.moveTo(at('2026-03-23T17:00Z'));
  expect(chasers(plater)).toHaveLength(1);
});

it('and the next is counted from then: three working days later, not before, and then no more', async () => {
  const { driver, plater } = shop;
  await driver.moveTo(at('2026-03-26T08:59Z'));
  expect(chasers(plater)).toHaveLength(1);
  await driver.moveTo(at('2026-03-26T09:00Z'));
  expect(chasers(plater)).toHaveLength(2);
  await driver.moveTo(at('2026-04-24T17:00Z'));
  expect(chasers(plater)).toHaveLength(2);
  await expectNothingTwice(shop);
});

it('what was said in the last day before it came back is heard', async () => {
  await shop.switchOff();
  await shop.mechanic.say('left footrest bent');
  await shop.switchOn();
  await shop.driver.quiet();
  expect(shop.mechanic.last()?.text).toMatch(/left footrest: bent/);
});
