import { setTimeout as delay } from 'node:timers/promises';
import type { LogPort } from '../log-port.js';
import { openRedis } from './address.js';
import { endProcess } from './orphan.js';
import { removeMark, startServer } from './server-process.js';
import type { ServerOptions, ServerProcess } from './server-process.js';

const SHUTDOWN_MS = 10_000;
const FIRST_PAUSE_MS = 50;
const LONGEST_PAUSE_MS = 5_000;

export type Keeper = {
  /** Ends the server in good order and keeps it ended. */
  stop(): Promise<void>;
};

/** Starts the server again whenever it dies, with pauses that grow while it fails to start. */
export function keepRunning(options: ServerOptions, first: ServerProcess, log: LogPort): Keeper {
  const stopping = new AbortController();
  let current = first;
  const kept = keep();

  async function keep(): Promise<void> {
    for (;;) {
      await Promise.race([current.exited, aborted(stopping.signal)]);
      if (stopping.signal.aborted) return;
      log.warn({ pid: current.mark.pid, dir: options.dir }, 'The private Redis died: starting it again');
      const next = await startAgain();
      if (next === null) return;
      current = next;
      log.info({ pid: current.mark.pid, dir: options.dir }, 'The private Redis answers again');
    }
  }

  async function startAgain(): Promise<ServerProcess | null> {
    for (
      let pause = FIRST_PAUSE_MS;
      !stopping.signal.aborted;
      pause = Math.min(LONGEST_PAUSE_MS, pause * 2)
    ) {
      try {
        return await startServer(options);
      } catch (error) {
        log.error({ err: error, pauseMs: pause }, 'The private Redis does not start; trying again');
        await Promise.race([delay(pause), aborted(stopping.signal)]);
      }
    }
    return null;
  }

  return {
    stop: async () => {
      stopping.abort();
      await kept;
      await shutDown(current);
      removeMark(options.dir);
    },
  };
}

const aborted = (signal: AbortSignal): Promise<void> =>
  new Promise((resolve) => {
    if (signal.aborted) resolve();
    else signal.addEventListener('abort', () => resolve(), { once: true });
  });

/** Asks the server to flush and end; whatever keeps it from doing so, it is gone in the end. */
async function shutDown(server: ServerProcess): Promise<void> {
  const client = openRedis(server.url, { retryStrategy: () => null, commandTimeout: SHUTDOWN_MS });
  client.on('error', () => undefined);
  // The answer to SHUTDOWN is the end of the connection.
  await client.shutdown().catch(() => undefined);
  client.disconnect();
  await Promise.race([server.exited, delay(SHUTDOWN_MS, undefined, { ref: false })]);
  await endProcess(server.mark, server.exited);
}
