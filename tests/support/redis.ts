import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Redis, RedisOptions } from 'ioredis';
import { openRedis } from '../../config/redis/address.js';
import { startServer } from '../../config/redis/server-process.js';
import type { Fsync, Listening, ServerProcess } from '../../config/redis/server-process.js';
import { findRedis } from '../../config/setup/find-redis.mjs';

export type TestRedisOptions = {
  /** (Default: 'no': what was answered outlives a kill of the server, though not of the machine.) */
  readonly fsync?: Fsync;
  /** Listen on a loopback port, for what can't use a socket file. (Default: false) */
  readonly tcp?: boolean;
  /** More of the server's own options, e.g. `['--cluster-enabled', 'yes']`. */
  readonly extra?: readonly string[];
};

export type TestRedis = {
  /** `unix:///…` (see `openRedis`), or `redis://127.0.0.1:…` with `tcp`. */
  readonly url: string;
  /** The same as ioredis and BullMQ take it, e.g. `new Queue(name, { connection: { ...redis.options } })`. */
  readonly options: { path: string } | { host: string; port: number };
  /** The folder with the server's files. */
  readonly dir: string;
  /** A new connection, closed by `stop`. */
  connect(options?: RedisOptions): Redis;
  /** Empties the server. */
  flush(): Promise<void>;
  /** SIGKILL; resolves when the process is gone. */
  kill(): Promise<void>;
  /** Starts it again, with the same data at the same address; kills it first where it still runs. */
  restart(): Promise<void>;
  /** Ends it, closes what `connect` gave and removes its files; to be called from afterAll or afterEach. */
  stop(): Promise<void>;
};

/**
 * Starts a throw-away Redis server with a folder of its own. A small watcher removes both when the test's process ends,
 * however that ends.
 */
export async function startTestRedis(options: TestRedisOptions = {}): Promise<TestRedis> {
  const server = findRedis();
  if (server === null) throw new Error('No Redis to test with: run `node config/setup/run.mjs redis` once.');
  const dir = await mkdtemp(join(tmpdir(), 'benchhand-redis-'));
  const watcher = watchOver(dir);
  const listen: Listening =
    options.tcp === true ? { port: await freePort() } : { socket: join(dir, 'redis.sock') };
  const clients = new Set<Redis>();
  const start = (): Promise<ServerProcess> =>
    startServer({
      binary: server.path,
      dir,
      listen,
      fsync: options.fsync ?? 'no',
      extra: options.extra ?? [],
    });
  let running = await start();

  const connect = (more: RedisOptions = {}): Redis => {
    const client = openRedis(running.url, more);
    client.on('error', () => undefined);
    clients.add(client);
    return client;
  };
  const kill = async (): Promise<void> => {
    signal(running.mark.pid, 'SIGKILL');
    await running.exited;
  };

  return {
    url: running.url,
    options: 'socket' in listen ? { path: listen.socket } : { host: '127.0.0.1', port: listen.port },
    dir,
    connect,
    flush: async () => {
      const client = openRedis(running.url, {});
      await client.flushall();
      client.disconnect();
    },
    kill,
    restart: async () => {
      await kill();
      running = await start();
    },
    stop: async () => {
      for (const client of clients) client.disconnect();
      await kill();
      watcher.end();
      await rm(dir, { recursive: true, force: true });
    },
  };
}

/** Waits for the end of its standard input, which is ours; so it outlives us by a moment even if we are killed. */
function watchOver(dir: string): { end(): void } {
  const script = 'read _; read pid _ <"$1/server.pid"; kill -9 "$pid"; rm -rf "$1"';
  const child = spawn('/bin/sh', ['-c', script, 'sh', dir], {
    detached: true,
    stdio: ['pipe', 'ignore', 'ignore'],
  });
  child.unref();
  return { end: () => child.kill('SIGKILL') };
}

function signal(pid: number, name: NodeJS.Signals): void {
  try {
    process.kill(pid, name);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error;
  }
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() =>
        address !== null && typeof address === 'object' ? resolve(address.port) : reject(new Error()),
      );
    });
  });
}
