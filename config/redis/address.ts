import type { RedisOptions } from 'ioredis';
import { Redis } from 'ioredis';

/** `redis://`, `rediss://` or, for a server of our own, `unix:///path/of/the/socket`. */
export type RedisUrl = string;

/** The URL of a server that listens on a socket file. */
export const socketUrl = (path: string): RedisUrl => `unix://${path}`;

/** A connection to `url`; ioredis itself takes a socket only as an option. */
export function openRedis(url: RedisUrl, options: RedisOptions): Redis {
  if (url.startsWith('unix://')) return new Redis({ ...options, path: url.slice('unix://'.length) });
  return new Redis(url, options);
}
