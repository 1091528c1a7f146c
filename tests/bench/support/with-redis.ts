import type { TestRedis } from '../../support/redis.js';
import { startTestRedis } from '../../support/redis.js';

/** Runs a benchmark with a Redis of its own that flushes every write to the disk, as the service's private one does. */
export async function withRedis(run: (redis: TestRedis) => Promise<void>): Promise<void> {
  // The server's process by itself does not keep ours waiting for its end.
  const awake = setInterval(() => undefined, 1_000);
  const redis = await startTestRedis({ fsync: 'always' });
  try {
    await run(redis);
  } finally {
    await redis.stop();
    clearInterval(awake);
  }
}
