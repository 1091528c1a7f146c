import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Scene } from './scene.js';
import {
  at,
  chasers,
  contactStream,
  DAY,
  eventsOf,
  expectNothingTwice,
  openScene,
  readBy,
  wakeAt,
} from './scene.js';

let shop: Scene;
beforeEach(async () => {
  shop = await openScene('Friday 13 March');
});
afterEach(() => shop.stop());

const roundUps = (): string[] => readBy(shop.mechanic).filter((text) => /overdue/i.test(text));

describe('the clock jumps by a day', () => {
  it('forward over what was due: it goes once, in their hours, with the day that it now is', async () => {
    const { driver, plater } = shop;
    await driver.moveTo(at('2026-03-16T07:00Z'));
    await wakeAt(shop, at('2026-03-16T07:00Z') + DAY);
    await driver.quiet();
    expect(chasers(plater)).toEqual([]);
    await driver.moveTo(at('2026-03-17T17:00Z'));
    expect(chasers(plater)).toHaveLength(1);
    // One round-up of the 17th; that of the 16th is not made up for.
    expect(roundUps()).toHaveLength(1);
    await expectNothingTwice(shop);
  });

  it('back over what was sent: nothing is sent again, and the ladder goes on from when it went', async () => {
    const { driver, plater } = shop;
    await driver.moveTo(at('2026-03-16T10:00Z'));
    expect(chasers(plater)).toHaveLength(1);
    const before = roundUps().length;
    await wakeAt(shop, at('2026-03-15T10:00Z'));
    await driver.quiet();
    await driver.moveTo(at('2026-03-16T17:00Z'));
    expect(chasers(plater)).toHaveLength(1);
    expect(roundUps()).toHaveLength(before);
    await driver.moveTo(at('2026-03-19T09:00Z'));
    expect(chasers(plater)).toHaveLength(2);
    await expectNothingTwice(shop);
  });

  it('forward and back again: what went in the wrong day is not repeated in the right one', async () => {
    const { driver, plater } = shop;
    await driver.moveTo(at('2026-03-15T10:00Z'));
    await wakeAt(shop, at('2026-03-16T10:00Z'));
    await driver.quiet();
    expect(chasers(plater)).toHaveLength(1);
    await shop.setClock(at('2026-03-15T10:05Z'));
    expect(await shop.say(shop.mechanic, 'left footrest bent')).toMatch(/left footrest: bent/);
    await driver.moveTo(at('2026-03-18T17:00Z'));
    expect(chasers(plater)).toHaveLength(1);
    const days = (await eventsOf(shop, await contactStream(shop, plater), 'message-intended')).map(
      (data) => (data as { day: string | null }).day,
    );
    expect(days.filter((day) => day !== null)).toEqual(['2026-03-16']);
  });
});
