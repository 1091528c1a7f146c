import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Redis } from 'ioredis';
import type { LogPort } from '../../log-port.js';
import { socketUrl } from '../../redis/address.js';
import { connectForRecord } from '../../redis/connect.js';
import { startPrivateRedis } from '../../redis/private-redis.js';
import { socketFor } from '../../redis/socket-path.js';
import type { Settings } from '../../settings.js';

export type ShopRedis =
  { ok: true; redis: Redis; close: () => Promise<void> } | { ok: false; problem: string };

const quiet: LogPort = { info: () => undefined, warn: () => undefined, error: () => undefined };

/**
 * The Redis that holds the shop's record: the one in the settings, else the private one, started for as long as the command
 * runs. `mayJoin`: where a service already runs the private one, use it beside that.
 */
export async function openShopRedis(
  { redisUrl, dataDir }: Settings,
  { mayJoin }: { mayJoin: boolean },
): Promise<ShopRedis> {
  if (redisUrl !== null) return connected(redisUrl);
  const server = await startPrivateRedis({ dataDir, log: quiet });
  if (server.ok) return connected(server.redis.url, () => server.redis.stop());
  const socket = socketFor(join(resolve(dataDir), 'redis'));
  return mayJoin && existsSync(socket) ? connected(socketUrl(socket)) : server;
}

async function connected(url: string, stop = () => Promise.resolve()): Promise<ShopRedis> {
  try {
    const redis = await connectForRecord({ url, name: 'archive', log: quiet });
    const close = async (): Promise<void> => {
      redis.disconnect();
      await stop();
    };
    return { ok: true, redis, close };
  } catch (error) {
    await stop();
    return { ok: false, problem: error instanceof Error ? error.message : String(error) };
  }
}
