import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { findRedis } from '../setup/find-redis.mjs';
import { takeLock } from '../setup/lock.mjs';
import type { LogPort } from '../log-port.js';
import type { RedisUrl } from './address.js';
import { keepRunning } from './keeper.js';
import { findOrphan } from './orphan.js';
import { startServer } from './server-process.js';
import type { Fsync, ServerOptions, ServerProcess } from './server-process.js';
import { socketFor } from './socket-path.js';

export type PrivateRedisOptions = {
  /** The service's data folder; the server's own is `redis` in it. */
  readonly dataDir: string;
  /** The server's binary. (Default: the one on PATH or unpacked into .tools) */
  readonly server?: string;
  /** (Default: 'always') */
  readonly fsync?: Fsync;
  readonly log: LogPort;
};

export type PrivateRedis = {
  readonly url: RedisUrl;
  /** How it came to run: started now, or found running without its owner. */
  readonly origin: 'started' | 'adopted';
  /** Ends the server in good order, once its users have closed their connections. A second call waits for the first. */
  stop(): Promise<void>;
};

export type PrivateRedisStart =
  { readonly ok: true; readonly redis: PrivateRedis } | { readonly ok: false; readonly problem: string };

/**
 * Starts a Redis server for this service alone, with its data under `dataDir`: append-only, nothing evicted, on a socket
 * file that only this user can open. One left running by a service that was killed is adopted; if it dies while we run, it
 * is started again. Refused where another service holds the folder, or there is no server to start. Throws where the
 * server can't start with the data that are there.
 */
export async function startPrivateRedis(options: PrivateRedisOptions): Promise<PrivateRedisStart> {
  const binary = options.server ?? findRedis()?.path;
  if (binary === undefined) return refusal(NO_SERVER);
  const dir = resolve(options.dataDir, 'redis');
  // People's data lie in it: for this user alone, whatever the umask.
  mkdirSync(dir, { recursive: true, mode: 0o700 });
  const lock = takeLock(join(dir, 'owner.lock'));
  if (!lock.ok) return refusal(inUse(options.dataDir, lock.holder?.pid));
  try {
    const server: ServerOptions = {
      binary,
      dir,
      listen: { socket: socketFor(dir) },
      fsync: options.fsync ?? 'always',
    };
    const orphan = await findOrphan(server, options.log);
    const running = orphan ?? (await startServer(server));
    return {
      ok: true,
      redis: own(server, running, orphan === null ? 'started' : 'adopted', lock.release, options.log),
    };
  } catch (error) {
    lock.release();
    throw error;
  }
}

const NO_SERVER =
  'There is no redis-server or valkey-server to start. Run `node config/setup/run.mjs redis`, or install one, or set REDIS_URL.';

const inUse = (dataDir: string, pid: number | undefined): string =>
  `Another Benchhand (process ${pid ?? 'unknown'}) already uses ${dataDir}. Stop it first, or set DATA_DIR to another folder.`;

const refusal = (problem: string): PrivateRedisStart => ({ ok: false, problem });

function own(
  options: ServerOptions,
  running: ServerProcess,
  origin: PrivateRedis['origin'],
  release: () => void,
  log: LogPort,
): PrivateRedis {
  log.info({ pid: running.mark.pid, dir: options.dir, origin }, 'The private Redis answers');
  const keeper = keepRunning(options, running, log);
  let stopping: Promise<void> | undefined;
  return {
    url: running.url,
    origin,
    stop: () => (stopping ??= keeper.stop().finally(release)),
  };
}
