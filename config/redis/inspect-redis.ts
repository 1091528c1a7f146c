import type { Redis } from 'ioredis';
import { isNewEnough, OLDEST_REDIS } from '../setup/find-redis.mjs';

export type RedisFacts = {
  /** Redis's version, or the one that a Valkey says it is compatible with, e.g. '7.2.4'. */
  readonly version: string;
  readonly evictionPolicy: string;
  readonly appendOnly: boolean;
  /** Null where the server doesn't tell (some hosts forbid CONFIG) or isn't append-only. */
  readonly fsync: string | null;
  readonly cluster: boolean;
};

export type RedisInspection = {
  readonly facts: RedisFacts;
  /** Why this server must not be used; empty where it may be. */
  readonly refusals: readonly string[];
  readonly warnings: readonly string[];
};

/** Reads a server's own account of itself, and judges whether a shop's record is safe in it. */
export async function inspectRedis(client: Redis): Promise<RedisInspection> {
  const facts = readFacts(await client.info(), await configuredFsync(client));
  return { facts, refusals: refusalsFor(facts), warnings: warningsFor(facts) };
}

/** `info` is the whole answer to INFO. */
export function readFacts(info: string, fsync: string | null): RedisFacts {
  const field = (name: string): string => new RegExp(`^${name}:(.*?)\\r?$`, 'm').exec(info)?.[1] ?? '';
  const appendOnly = field('aof_enabled') === '1';
  return {
    version: field('redis_version'),
    evictionPolicy: field('maxmemory_policy'),
    appendOnly,
    fsync: appendOnly ? fsync : null,
    cluster: field('redis_mode') === 'cluster',
  };
}

export function refusalsFor({ version, evictionPolicy }: RedisFacts): string[] {
  return [
    ...(isNewEnough(version)
      ? []
      : [
          `Redis ${version || 'of unknown version'} is too old: ${OLDEST_REDIS.join('.')} or newer is needed.`,
        ]),
    ...(evictionPolicy === 'noeviction'
      ? []
      : [
          `Redis may throw data away when it is full (maxmemory-policy is ${evictionPolicy || 'unknown'}): set maxmemory-policy to noeviction.`,
        ]),
  ];
}

export function warningsFor({ appendOnly, fsync }: RedisFacts): string[] {
  if (!appendOnly)
    return [
      'Redis is not append-only: what was said since its last snapshot is lost if it stops. Set appendonly to yes.',
    ];
  if (fsync === 'everysec')
    return [
      'Redis flushes once a second: the last second may be lost if the machine stops. Set appendfsync to always.',
    ];
  if (fsync === 'no')
    return [
      'Redis leaves flushing to the system: half a minute may be lost if the machine stops. Set appendfsync to always.',
    ];
  return [];
}

async function configuredFsync(client: Redis): Promise<string | null> {
  try {
    const answer = (await client.config('GET', 'appendfsync')) as string[];
    return answer[1] ?? null;
  } catch (error) {
    if (error instanceof Error && error.name === 'ReplyError') return null;
    throw error;
  }
}
