import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ChatEvent } from '../../../bot/rehearsal/happenings.js';
import { nextOwnerHour } from '../../../src/job/due/owner.js';
import { DEFAULT_POLICY } from '../../../src/shop/policy.js';
import type { Scene } from './scene.js';
import { at, chasers, expectNothingTwice, MINUTE, openScene } from './scene.js';

// Sources: the changes are at 01:00 UTC on the last Sundays of March and October (Summer Time Order 2002, SI 2002/262); what the
// local time is at an instant is taken from the time zone data of ICU (Intl), which the code under test does not use by hand.
const londonTime = new Intl.DateTimeFormat('en-GB', {
  ...{ timeZone: 'Europe/London', hour: '2-digit', minute: '2-digit', weekday: 'short' },
});
const inLondon = (instant: number): string => londonTime.format(instant);

type Change = {
  name: string;
  startAt: string;
  promised: string;
  /** An instant of the Saturday evening before the change, within quiet hours, and when owners may next be written to. */
  evening: string;
  morning: string;
  /** Round-up, owner, chaser and second chaser, as they must go after the change. */
  roundUp: string;
  owner: string;
  chaser: string;
  again: string;
};

// Good Friday is the 3rd of April 2026, so that the second chaser of the spring still falls before it.
const CHANGES: Change[] = [
  {
    ...{ name: 'forward, on 29 March 2026', startAt: '2026-03-23T09:00Z', promised: 'Friday 27 March' },
    ...{ evening: '2026-03-28T20:30Z', morning: '2026-03-29T07:00Z' },
    ...{ roundUp: '2026-03-30T06:45Z', owner: '2026-03-30T07:00Z' },
    ...{ chaser: '2026-03-30T08:00Z', again: '2026-04-02T08:00Z' },
  },
  {
    ...{ name: 'back, on 25 October 2026', startAt: '2026-10-19T08:00Z', promised: 'Friday 23 October' },
    ...{ evening: '2026-10-24T19:30Z', morning: '2026-10-25T08:00Z' },
    ...{ roundUp: '2026-10-26T07:45Z', owner: '2026-10-26T08:00Z' },
    ...{ chaser: '2026-10-26T09:00Z', again: '2026-10-29T09:00Z' },
  },
];

describe.each(CHANGES)('the clock goes $name', (change) => {
  let shop: Scene;
  const seen: ChatEvent[] = [];
  beforeAll(async () => {
    shop = await openScene(change.promised, { startAt: at(change.startAt) });
    shop.rehearsal.on('chat', (event) => void seen.push(event));
  });
  afterAll(() => shop.stop());

  /** When the bot wrote in a chat something that matches, to the minute. */
  const wroteAt = (chatId: number, words: RegExp): string[] =>
    seen.flatMap((event) =>
      event.type === 'message' &&
      event.byBot &&
      event.chatId === chatId &&
      words.test(event.message.text ?? '')
        ? [new Date(event.at).toISOString().slice(0, 16) + 'Z']
        : [],
    );

  it('a word for the owner released in the quiet evening before goes at eight on Monday, by the new time', async () => {
    await shop.driver.moveTo(at(change.evening));
    await shop.say(shop.mechanic, 'seat recover it, 150 quid');
    await shop.say(shop.mechanic, 'ask the owner');
    await shop.driver.moveTo(at(change.owner) - MINUTE);
    expect(wroteAt(shop.owner.chatId, /./)).toEqual([]);
    await shop.driver.moveTo(at(change.owner));
    expect(wroteAt(shop.owner.chatId, /seat/i)).toEqual([change.owner]);
    expect(inLondon(at(change.owner))).toBe('Mon 08:00');
  });

  it('the round-up came at a quarter to eight by the new time, to the minute', () => {
    expect(wroteAt(shop.mechanic.chatId, /overdue/i)).toEqual([change.roundUp]);
    expect(inLondon(at(change.roundUp))).toBe('Mon 07:45');
  });

  it('the supplier is woken for at nine by the new time, and again three working days later', async () => {
    const { driver, plater, record } = shop;
    expect(await record.due.next()).toBe(at(change.chaser));
    await driver.moveTo(at(change.chaser) - MINUTE);
    expect(chasers(plater)).toEqual([]);
    await driver.moveTo(at(change.again));
    expect(wroteAt(plater.chatId, /rim/i)).toEqual([change.chaser, change.again]);
    expect([change.chaser, change.again].map((time) => inLondon(at(time)))).toEqual([
      'Mon 09:00',
      'Thu 09:00',
    ]);
    await expectNothingTwice(shop);
  });

  it('where Sundays are not quiet, the night of the change ends at eight by the new time', () => {
    const policy = {
      ...DEFAULT_POLICY,
      owner: { ...DEFAULT_POLICY.owner, quiet: { from: '20:00', to: '08:00', days: [] } },
    };
    expect(nextOwnerHour(policy, at(change.evening))).toBe(at(change.morning));
    expect(inLondon(at(change.morning))).toBe('Sun 08:00');
    expect(nextOwnerHour(policy, at(change.morning) - MINUTE)).toBe(at(change.morning));
    expect(nextOwnerHour(policy, at(change.morning))).toBe(at(change.morning));
  });
});
