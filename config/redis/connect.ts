import type { Redis, RedisOptions } from 'ioredis';
import type { LogPort } from '../log-port.js';
import { openRedis } from './address.js';
import type { RedisUrl } from './address.js';

export type ConnectOptions = {
  readonly url: RedisUrl;
  /** Shown by CLIENT LIST and in the log, e.g. 'bot' or 'worker-send'. */
  readonly name: string;
  readonly log: LogPort;
};

/** How long a service that is starting waits for its Redis. */
const PATIENCE_MS = 30_000;
const PRODUCER_RETRIES = 3;

/**
 * A connection for BullMQ's workers: it waits for as long as the server is away. No keyPrefix: BullMQ and the record name
 * their keys in full.
 */
export function connectForWorker(options: ConnectOptions): Redis {
  return watched(openRedis(options.url, { ...common(options), maxRetriesPerRequest: null }), options);
}

/**
 * A connection for the record and for adding to queues: once it is there, a command fails after a few retries, or at once
 * while the server is away, so that whoever waits for an answer is told. Rejects where the server can't be reached within
 * `patienceMs` (default 30 s).
 */
export async function connectForRecord(options: ConnectOptions, patienceMs = PATIENCE_MS): Promise<Redis> {
  const client = watched(
    openRedis(options.url, {
      ...common(options),
      maxRetriesPerRequest: PRODUCER_RETRIES,
      enableOfflineQueue: false,
    }),
    options,
  );
  try {
    await ready(client, patienceMs);
    return client;
  } catch (error) {
    client.disconnect();
    throw error;
  }
}

const common = ({ name }: ConnectOptions): RedisOptions => ({
  connectionName: `benchhand-${name}`,
  keepAlive: 10_000,
  retryStrategy: (times) => Math.min(2_000, 50 * times),
});

/** Logs the loss of a connection once, and its return: not every try between. */
function watched(client: Redis, { name, log }: ConnectOptions): Redis {
  let isLost = false;
  let last: Error | undefined;
  client.on('error', (error: Error) => {
    last = error;
  });
  client.on('reconnecting', () => {
    if (!isLost) log.warn({ err: last, connection: name }, 'Redis cannot be reached; trying again');
    isLost = true;
  });
  client.on('ready', () => {
    if (isLost) log.info({ connection: name }, 'Redis is back');
    isLost = false;
    last = undefined;
  });
  return client;
}

function ready(client: Redis, patienceMs: number): Promise<void> {
  return new Promise((resolve, reject) => {
    let last: Error | undefined;
    client.on('error', remember);
    client.once('ready', () => finish(resolve));
    const timer = setTimeout(() => finish(giveUp), patienceMs);

    function remember(error: Error): void {
      last = error;
    }
    function finish(settle: () => void): void {
      clearTimeout(timer);
      client.off('error', remember);
      settle();
    }
    function giveUp(): void {
      reject(new Error(`Redis cannot be reached: ${last?.message ?? 'it does not answer'}`, { cause: last }));
    }
  });
}
