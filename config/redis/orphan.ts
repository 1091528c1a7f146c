import { setTimeout as delay } from 'node:timers/promises';
import type { LogPort } from '../log-port.js';
import { lookUp, markOf } from '../setup/processes.mjs';
import type { ProcessMark } from '../setup/processes.mjs';
import { openRedis } from './address.js';
import { answering, readMark, urlOf } from './server-process.js';
import type { ServerOptions, ServerProcess } from './server-process.js';

/** A server that runs but can't be reached for so long is ended: two on the same files would spoil them. */
const UNREACHABLE_MS = 10_000;
const POLL_MS = 20;

/**
 * The server of a service that was killed, if it still runs: waits until it answers, and sets it to flush as wanted. One
 * that can't be reached is ended first. To be called by the holder of the folder's lock alone.
 */
export async function findOrphan(options: ServerOptions, log: LogPort): Promise<ServerProcess | null> {
  const url = urlOf(options.listen);
  const known = readMark(options.dir);
  const runs = known !== null && lookUp(known) === 'running';
  const pid = await pidBehind(url, runs ? Math.floor(UNREACHABLE_MS / POLL_MS) : 0);
  if (pid !== null) {
    const mark = markOf(pid);
    await answering(url);
    await setFsync(url, options.fsync);
    return { url, mark, exited: gone(mark) };
  }
  if (runs) {
    log.warn({ pid: known.pid, dir: options.dir }, 'The private Redis runs but cannot be reached: ending it');
    await endProcess(known);
  }
  return null;
}

/** Resolves when a process that isn't our child has gone. */
export async function gone(mark: ProcessMark): Promise<void> {
  while (lookUp(mark) !== 'gone') await delay(POLL_MS, undefined, { ref: false });
}

/** SIGTERM and, ten seconds later, SIGKILL: the append-only file is whole after either. */
export async function endProcess(mark: ProcessMark, exited: Promise<void> = gone(mark)): Promise<void> {
  for (const signal of ['SIGTERM', 'SIGKILL'] as const) {
    if (lookUp(mark) === 'gone') return;
    process.kill(mark.pid, signal);
    await Promise.race([exited, delay(UNREACHABLE_MS, undefined, { ref: false })]);
  }
}

/** The process that answers at `url`, even while it loads its data; null where none does after so many retries. */
async function pidBehind(url: string, retries: number): Promise<number | null> {
  const client = openRedis(url, {
    enableReadyCheck: false,
    retryStrategy: () => POLL_MS,
    maxRetriesPerRequest: retries,
    commandTimeout: UNREACHABLE_MS,
  });
  client.on('error', () => undefined);
  try {
    return Number(/^process_id:(\d+)/m.exec(await client.info('server'))?.[1] ?? NaN);
  } catch {
    return null;
  } finally {
    client.disconnect();
  }
}

async function setFsync(url: string, fsync: string): Promise<void> {
  const client = openRedis(url, {});
  client.on('error', () => undefined);
  try {
    await client.config('SET', 'appendfsync', fsync);
  } finally {
    client.disconnect();
  }
}
