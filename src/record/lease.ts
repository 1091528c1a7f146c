import type { Redis } from 'ioredis';
import type { Keys } from './keys.js';
import { defineScript } from './scripts.js';
import type { ShopRecord } from './types.js';

/** Locks that lapse by themselves, in the machine's time. */
export function makeLease(redis: Redis, keys: Keys): ShopRecord['lease'] {
  const extend = defineScript(redis, 'lease-extend', 1);
  const giveUp = defineScript(redis, 'lease-release', 1);
  const renew: ShopRecord['lease']['renew'] = async (name, holder, ms) =>
    (await extend([keys.lease(name)], [holder, ms])) === 1;
  return {
    take: async (name, holder, ms) =>
      (await redis.set(keys.lease(name), holder, 'PX', ms, 'NX')) === 'OK' || renew(name, holder, ms),
    renew,
    release: async (name, holder) => (await giveUp([keys.lease(name)], [holder])) === 1,
  };
}

/** The rehearsal clock, which all processes of a shop read. */
export function makeClock(redis: Redis, keys: Keys): ShopRecord['clock'] {
  return {
    get: async () => {
      const value = await redis.get(keys.clock);
      return value === null ? null : Number(value);
    },
    set: async (ms) => {
      if (ms === null) await redis.del(keys.clock);
      else await redis.set(keys.clock, ms);
    },
  };
}
