import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { closeSync, mkdirSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { markOf } from '../setup/processes.mjs';
import type { ProcessMark } from '../setup/processes.mjs';
import { openRedis, socketUrl } from './address.js';
import type { RedisUrl } from './address.js';

/** When the server flushes its log of writes to the disk: before it answers, once a second, or when the system likes. */
export type Fsync = 'always' | 'everysec' | 'no';

export type ServerOptions = {
  readonly binary: string;
  /** Made where it is missing; the data, the log and the process id are kept in it. */
  readonly dir: string;
  readonly listen: Listening;
  readonly fsync: Fsync;
  /** More of the server's own options, e.g. `['--cluster-enabled', 'yes']`. */
  readonly extra?: readonly string[];
};

export type Listening = { readonly socket: string } | { readonly port: number };

export type ServerProcess = {
  readonly url: RedisUrl;
  readonly mark: ProcessMark;
  /** Settles when the process is gone, however it went. */
  readonly exited: Promise<void>;
};

/**
 * Starts a Redis server and waits until it answers, its data loaded. It is in a session of its own, so that a Ctrl-C
 * meant for us doesn't reach it before its users have finished. Rejects with the end of its log where it gives up.
 */
export async function startServer(options: ServerOptions): Promise<ServerProcess> {
  mkdirSync(options.dir, { recursive: true, mode: 0o700 });
  if ('socket' in options.listen) rmSync(options.listen.socket, { force: true });
  const child = launch(options);
  const mark = writeMark(options.dir, child);
  const exited = new Promise<void>((resolve) => {
    child.once('exit', () => resolve());
    child.once('error', () => resolve());
  });
  const url = urlOf(options.listen);
  if (mark === null) throw new Error(`${options.binary} can't be started`);
  const waiting = new AbortController();
  const gaveUp = exited.then(() => {
    waiting.abort();
    throw new Error(`The Redis server in ${options.dir} did not start: ${lastWords(options.dir)}`);
  });
  await Promise.race([answering(url, waiting.signal), gaveUp]);
  return { url, mark, exited };
}

/** Resolves once the server at `url` answers and has loaded its data; retries for as long as that takes. */
export async function answering(url: RedisUrl, giveUp?: AbortSignal): Promise<void> {
  const client = openRedis(url, {
    retryStrategy: () => 5,
    maxRetriesPerRequest: null,
    maxLoadingRetryTime: 200,
  });
  client.on('error', () => undefined);
  try {
    await new Promise<void>((resolve) => {
      client.once('ready', () => resolve());
      giveUp?.addEventListener('abort', () => resolve(), { once: true });
    });
  } finally {
    client.disconnect();
  }
}

export const urlOf = (listen: Listening): RedisUrl =>
  'socket' in listen ? socketUrl(listen.socket) : `redis://127.0.0.1:${listen.port}`;

function launch(options: ServerOptions): ChildProcess {
  const log = openSync(logOf(options.dir), 'w');
  const child = spawn(options.binary, argumentsFor(options), { detached: true, stdio: ['ignore', log, log] });
  closeSync(log);
  child.unref();
  return child;
}

function argumentsFor({ dir, listen, fsync, extra = [] }: ServerOptions): string[] {
  const where =
    'socket' in listen
      ? ['--port', '0', '--unixsocket', listen.socket, '--unixsocketperm', '700']
      : ['--port', String(listen.port), '--bind', '127.0.0.1', '--protected-mode', 'yes'];
  const keeping = ['--dir', dir, '--appendonly', 'yes', '--appendfsync', fsync, '--save', ''];
  return [...where, ...keeping, '--maxmemory-policy', 'noeviction', ...extra];
}

/** Written at once, so that whoever comes after us finds the server even if we die now. */
function writeMark(dir: string, child: ChildProcess): ProcessMark | null {
  if (child.pid === undefined) return null;
  const mark = markOf(child.pid);
  writeFileSync(markPath(dir), `${mark.pid} ${mark.started ?? ''}\n`);
  return mark;
}

/** The server that was last started in `dir`; null where none was, or it was ended in good order. */
export function readMark(dir: string): ProcessMark | null {
  try {
    const [pid, started = ''] = readFileSync(markPath(dir), 'utf8').trim().split(' ');
    return { pid: Number(pid), started: started === '' ? null : started };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

export const removeMark = (dir: string): void => rmSync(markPath(dir), { force: true });

const markPath = (dir: string): string => join(dir, 'server.pid');

const logOf = (dir: string): string => join(dir, 'redis.log');

function lastWords(dir: string): string {
  try {
    return readFileSync(logOf(dir), 'utf8').trim().split('\n').slice(-3).join(' | ');
  } catch {
    return 'it left no log';
  }
}
