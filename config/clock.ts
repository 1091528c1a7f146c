import type { Clock } from '../src/desk/clock.js';
import type { ShopRecord } from '../src/record/types.js';

/** Shop time: the machine's, or in a rehearsal the one that its driver puts into the record. */
export function shopClock(record: ShopRecord, isRehearsal: boolean): Clock {
  if (!isRehearsal) return { now: () => Promise.resolve(Date.now()) };
  return {
    now: async () => {
      const now = await record.clock.get();
      if (now === null) throw new Error('the rehearsal clock has not been set');
      return now;
    },
  };
}
