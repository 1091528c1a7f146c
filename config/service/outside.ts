import { mkdir, statfs } from 'node:fs/promises';
import type { Redis } from 'ioredis';
import type { Outside } from '../../src/desk/outside.js';
import type { ShopRecord } from '../../src/record/types.js';
import type { Queues } from '../../workers/queues.js';
import { QUEUES } from '../../workers/queues.js';
import { backUpKeeper } from '../back-up/keep-back-up.js';
import { inspectRedis } from '../redis/inspect-redis.js';
import type { Settings } from '../settings.js';

type Around = { redis: Redis; record: ShopRecord; queues: Queues; settings: Settings };

/** What a mechanic can be told of the machine around the record, and where back-ups go. */
export function lookOutside({ redis, record, queues, settings }: Around): Outside {
  const { filesDir, shopKey: shop, backUpDir: folder } = settings;
  return {
    longestWaitMs: async () => {
      const outbox = await record.outbox.oldestAt();
      const waiting = await Promise.all(QUEUES.map((name) => waitingSince(queues, name)));
      const since = [outbox, ...waiting].filter((each) => each !== null);
      return since.length === 0 ? null : Math.max(0, Date.now() - Math.min(...since));
    },
    wokeAgoMs: async () => {
      const [last] = await queues.wake.getCompleted(0, 0);
      return last?.finishedOn === undefined ? null : Math.max(0, Date.now() - last.finishedOn);
    },
    disk: async () => {
      await mkdir(filesDir, { recursive: true });
      const { bavail, blocks, bsize } = await statfs(filesDir);
      return { freeBytes: bavail * bsize, wholeBytes: blocks * bsize };
    },
    redis: async () => {
      const { facts, refusals, warnings } = await inspectRedis(redis);
      const { version, appendOnly, fsync, evictionPolicy } = facts;
      // A setting that the service refuses at its start may have been made since.
      return {
        ...{ version, appendOnly, fsync, warnings: [...refusals, ...warnings] },
        evicts: evictionPolicy !== 'noeviction',
      };
    },
    backUp: folder === null ? null : backUpKeeper({ redis, shop, filesDir, folder }),
  };
}

/** When the job came that has waited longest for a worker or its next try, ms since 1970; those that wait for their time are not counted. */
async function waitingSince(queues: Queues, name: keyof Queues): Promise<number | null> {
  const [[oldest], delayed] = await Promise.all([queues[name].getWaiting(0, 0), queues[name].getDelayed()]);
  const tried = delayed.filter(({ attemptsMade }) => attemptsMade > 0);
  // A job put down for a later time has waited only since then.
  const since = [...(oldest ? [oldest] : []), ...tried].map(
    ({ timestamp, opts }) => timestamp + (opts.delay ?? 0),
  );
  return since.length === 0 ? null : Math.min(...since);
}
