import fc from 'fast-check';
import { expect, it } from 'vitest';
import { createUpdateQueue } from '../../../bot/rehearsal/updates.js';

/** What happens to a queue: an update comes, the bot handles some, dies before confirming, or one is given again. */
const step = fc.oneof(
  fc.constant({ kind: 'comes' as const }),
  fc.record({
    kind: fc.constant('polls' as const),
    limit: fc.integer({ min: 1, max: 3 }),
    dies: fc.boolean(),
  }),
  fc.record({ kind: fc.constant('again' as const), which: fc.nat(20) }),
);

// Source: Bot API documentation, getUpdates: an update is confirmed by a call with a higher offset
it('whatever happens, each update is handled, in order but for those given again, and none is left', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
      const queue = createUpdateQueue(1, () => undefined);
      const handled: number[] = [];
      const given = new Set<number>();
      let offset = 0;
      const poll = async (limit: number, dies: boolean): Promise<number> => {
        const ask = {
          offset,
          limit,
          timeoutSeconds: 0,
          allowed: null,
          now: 0,
          signal: new AbortController().signal,
        };
        const updates = await queue.poll(ask);
        if (dies) return updates.length;
        for (const { update_id: id } of updates) {
          if (!given.delete(id)) handled.push(id);
          offset = Math.max(offset, id + 1);
        }
        return updates.length;
      };
      for (const one of steps) {
        if (one.kind === 'comes') queue.push({ message: {} as never }, 0);
        else if (one.kind === 'polls') await poll(one.limit, one.dies);
        else if (handled.includes(one.which) && queue.redeliver(one.which)) given.add(one.which);
      }
      while ((await poll(2, false)) > 0);
      expect(handled).toEqual(Array.from({ length: queue.count() }, (_, index) => index + 1));
      expect(queue.pending()).toBe(0);
    }),
  );
});
