import { describe, expect, it } from 'vitest';
import { createDriver, rehearsalTime } from '../../config/demo/driver.js';
import type { DriverParts } from '../../config/demo/driver.js';

const MONDAY = Date.UTC(2026, 2, 2, 9);
const HOUR = 3_600_000;

type Shop = { dues: number[]; outbox: number; woken: number[]; clock: number | null };

/** A shop of nothing but things due: a wake settles those that are due by then, unless it is told to keep them. */
function driverOf(shop: Shop, { settles = true, patienceMs = 1_000 } = {}) {
  const time = rehearsalTime(MONDAY);
  const none = () => Promise.resolve({ waiting: 0, active: 0, prioritized: 0, delayed: 0 });
  const wake = (_name: string, { at }: { at: number }) => {
    shop.woken.push(at);
    if (settles) shop.dues = shop.dues.filter((due) => due > at);
    return Promise.resolve();
  };
  const parts = {
    time,
    patienceMs,
    record: {
      clock: {
        set: (instant: number) => {
          shop.clock = instant;
          return Promise.resolve();
        },
      },
      due: { next: () => Promise.resolve(shop.dues.length > 0 ? Math.min(...shop.dues) : null) },
      outbox: { size: () => Promise.resolve(shop.outbox) },
    },
    queues: Object.fromEntries(
      ['send', 'fetch', 'transcribe', 'wake'].map((name) => [name, { getJobCounts: none, add: wake }]),
    ),
    rehearsal: { quiet: () => Promise.resolve(), updateCount: 0 },
  };
  return createDriver(parts as unknown as DriverParts);
}

const shopWith = (dues: number[]): Shop => ({ dues, outbox: 0, woken: [], clock: null });

describe('moving a rehearsal on', () => {
  it('wakes the shop at each instant something is due, and stands at the target', async () => {
    const shop = shopWith([MONDAY + 3 * HOUR, MONDAY + HOUR, MONDAY + 9 * HOUR]);
    const driver = driverOf(shop);
    await driver.moveTo(MONDAY + 8 * HOUR);
    expect(shop.woken).toEqual([MONDAY + HOUR, MONDAY + 3 * HOUR]);
    expect(driver.now()).toBe(MONDAY + 8 * HOUR);
    expect(shop.clock).toBe(MONDAY + 8 * HOUR);
  });

  it('wakes for what is overdue as things stand, without going back', async () => {
    const shop = shopWith([MONDAY - HOUR]);
    const driver = driverOf(shop);
    await driver.moveTo(MONDAY);
    expect(shop.woken).toEqual([MONDAY]);
    await expect(driver.moveTo(MONDAY - 1)).rejects.toThrow('never goes back');
  });

  it('gives up on something that stays due however often woken', async () => {
    const driver = driverOf(shopWith([MONDAY + HOUR]), { settles: false });
    await expect(driver.moveTo(MONDAY + 2 * HOUR)).rejects.toThrow('stays due');
  });

  it('says what is under way when the shop does not come to rest', async () => {
    const driver = driverOf({ ...shopWith([]), outbox: 2 }, { patienceMs: 30 });
    await expect(driver.quiet()).rejects.toThrow('does not come to rest: outbox: 2');
  });
});
