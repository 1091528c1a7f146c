import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm, stat } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRedis } from '../../config/redis/address.js';
import { startPrivateRedis } from '../../config/redis/private-redis.js';
import type { PrivateRedis, PrivateRedisOptions } from '../../config/redis/private-redis.js';
import { readMark, startServer } from '../../config/redis/server-process.js';
import { socketFor } from '../../config/redis/socket-path.js';
import { findRedis } from '../../config/setup/find-redis.mjs';
import { lookUp } from '../../config/setup/processes.mjs';

const said: string[] = [];
const note = (_details: object, sentence: string): void => void said.push(sentence);
const log = { info: note, warn: note, error: note };
const timesSaid = (sentence: string): number => said.filter((line) => line === sentence).length;

describe('the private Redis', () => {
  let dataDir: string;
  const running: PrivateRedis[] = [];
  beforeEach(async () => {
    dataDir = await mkdtemp(join(tmpdir(), 'benchhand-data-'));
  });
  afterEach(async () => {
    await Promise.all(running.splice(0).map((redis) => redis.stop()));
    const left = readMark(join(dataDir, 'redis'));
    if (left !== null && lookUp(left) === 'running') process.kill(left.pid, 'SIGKILL');
    await rm(dataDir, { recursive: true, force: true });
  });

  async function started(options: Partial<PrivateRedisOptions> = {}): Promise<PrivateRedis> {
    const start = await startPrivateRedis({ dataDir, log, ...options });
    if (!start.ok) throw new Error(start.problem);
    running.push(start.redis);
    return start.redis;
  }

  async function ask<T>(
    url: string,
    question: (client: ReturnType<typeof openRedis>) => Promise<T>,
  ): Promise<T> {
    const client = openRedis(url, {});
    client.on('error', () => undefined);
    try {
      return await question(client);
    } finally {
      client.disconnect();
    }
  }

  const setting = (url: string, name: string): Promise<string | undefined> =>
    ask(url, async (client) => ((await client.config('GET', name)) as string[])[1]);
  const pidOf = (): number => readMark(join(dataDir, 'redis'))?.pid ?? NaN;

  it('writes before it answers, evicts nothing, and listens to this user alone', async () => {
    const redis = await started();
    expect(await setting(redis.url, 'appendonly')).toBe('yes');
    expect(await setting(redis.url, 'appendfsync')).toBe('always');
    expect(await setting(redis.url, 'maxmemory-policy')).toBe('noeviction');
    expect(await setting(redis.url, 'port')).toBe('0');
    const socket = await stat(join(dataDir, 'redis/redis.sock'));
    expect(socket.mode & 0o077).toBe(0);
    expect((await stat(join(dataDir, 'redis'))).mode & 0o077).toBe(0);
  });

  it('has its data again after it was stopped and started, and leaves no process', async () => {
    const first = await started();
    await ask(first.url, (client) => client.set('bench', 'vice'));
    const pid = pidOf();
    await first.stop();
    expect(() => process.kill(pid, 0)).toThrow('ESRCH');
    const second = await started();
    expect(second.origin).toBe('started');
    expect(await ask(second.url, (client) => client.get('bench'))).toBe('vice');
  });

  it('refuses a second start on the same data, and allows it once the first has stopped', async () => {
    const first = await started();
    const second = await startPrivateRedis({ dataDir, log });
    expect(second).toEqual({
      ok: false,
      problem: expect.stringContaining(`process ${process.pid}`) as unknown,
    });
    await first.stop();
    expect((await started()).origin).toBe('started');
  });

  it('adopts the server of a service that was killed, as it is wanted now', async () => {
    const orphan = await startOrphan('no');
    await ask(orphan.url, (client) => client.set('bench', 'vice'));
    leaveLockOfDeadOwner();
    const redis = await started();
    expect(redis.origin).toBe('adopted');
    expect(pidOf()).toBe(orphan.mark.pid);
    expect(await setting(redis.url, 'appendfsync')).toBe('always');
    await redis.stop();
    await orphan.exited;
    expect(lookUp(orphan.mark)).toBe('gone');
  });

  it('adopts a server of whose start there is no note', async () => {
    const orphan = await startOrphan('always');
    await rm(join(dataDir, 'redis/server.pid'));
    expect((await started()).origin).toBe('adopted');
    expect(lookUp(orphan.mark)).toBe('running');
  });

  it('is started again when it is killed, adopted or not, with what it answered', async () => {
    await startOrphan('always');
    const redis = await started();
    const client = openRedis(redis.url, { retryStrategy: () => 10, maxRetriesPerRequest: null });
    client.on('error', () => undefined);
    said.length = 0;
    for (const [deaths, value] of ['as adopted', 'as started again'].entries()) {
      await client.set('bench', value);
      process.kill(pidOf(), 'SIGKILL');
      const isBack = expect.poll(() => timesSaid('The private Redis answers again'), { timeout: 10_000 });
      await isBack.toBe(deaths + 1);
      expect(await client.get('bench')).toBe(value);
    }
    client.disconnect();
  });

  it('says so when there is no server to start', async () => {
    await expect(startPrivateRedis({ dataDir, log, server: '/nonexistent/redis-server' })).rejects.toThrow(
      "/nonexistent/redis-server can't be started",
    );
  });

  it('gives the end of the log when the server cannot start, and lets go of the folder', async () => {
    mkdirSync(join(dataDir, 'redis/appendonlydir'), { recursive: true });
    writeFileSync(join(dataDir, 'redis/appendonlydir/appendonly.aof.manifest'), 'nonsense\n');
    await expect(startPrivateRedis({ dataDir, log })).rejects.toThrow(/did not start: .*manifest/i);
    await rm(join(dataDir, 'redis/appendonlydir'), { recursive: true });
    expect((await started()).origin).toBe('started');
  });

  it('listens in the temporary folder where its own path is too long for a socket', () => {
    const long = join(dataDir, 'x'.repeat(100));
    expect(socketFor(long).length).toBeLessThanOrEqual(103);
    expect(socketFor(long)).toBe(socketFor(long));
    expect(socketFor(long)).not.toBe(socketFor(`${long}y`));
    for (const dir of [long, `${long}y`]) execFileSync('rmdir', [join(socketFor(dir), '..')]);
  });

  async function startOrphan(fsync: 'always' | 'no'): ReturnType<typeof startServer> {
    const dir = join(dataDir, 'redis');
    const binary = findRedis()?.path ?? '';
    return startServer({ binary, dir, listen: { socket: socketFor(dir) }, fsync });
  }

  function leaveLockOfDeadOwner(): void {
    const { pid } = spawnSync('true');
    const lock = join(dataDir, 'redis/owner.lock');
    mkdirSync(lock);
    writeFileSync(
      join(lock, 'holder.json'),
      JSON.stringify({ token: 't', host: hostname(), pid, started: '1' }),
    );
  }
});
