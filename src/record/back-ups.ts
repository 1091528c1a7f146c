import type { Redis } from 'ioredis';
import { z } from 'zod';
import type { Keys } from './keys.js';
import { execute } from './multi.js';
import type { BackUps } from './types.js';

const keptSchema = z.object({
  day: z.string(),
  at: z.number(),
  name: z.string(),
  bytes: z.number(),
  events: z.number(),
  files: z.number(),
});
const failedSchema = z.object({ day: z.string(), at: z.number(), why: z.string(), since: z.string() });

/** The account of the daily back-ups: the last that was kept, and the failure since, if there is one. */
export function makeBackUps(redis: Redis, keys: Keys): BackUps {
  return {
    account: async () => {
      const { kept, failed } = await redis.hgetall(keys.backUp);
      return {
        kept: kept === undefined ? null : keptSchema.parse(JSON.parse(kept)),
        failed: failed === undefined ? null : failedSchema.parse(JSON.parse(failed)),
      };
    },
    note: async (outcome) => {
      if ('failed' in outcome) await redis.hset(keys.backUp, 'failed', JSON.stringify(outcome.failed));
      else
        await execute(
          redis.multi().hset(keys.backUp, 'kept', JSON.stringify(outcome.kept)).hdel(keys.backUp, 'failed'),
        );
    },
  };
}
