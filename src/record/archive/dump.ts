import type { Redis } from 'ioredis';
import { KEY_KINDS, kindOf } from '../keys.js';
import type { KeyKind, Keys } from '../keys.js';
import type { Cut } from './cut.js';
import type { Row } from './format.js';
import { pairwise } from './format.js';

/** Entries to a row: it bounds what is in memory at a time. */
const CHUNK = 200;
/** Kinds that say what became of updates. */
export const INBOX_KINDS: readonly KeyKind[] = ['inbox', 'inbox-tries'];

/** The rows of the kinds whose keys are found by scanning. A key may come twice: writing such a row twice is harmless. */
export async function* scannedRows(
  redis: Redis,
  keys: Keys,
  wanted: (kind: KeyKind) => boolean,
): AsyncGenerator<Row> {
  let cursor = '0';
  do {
    const [next, page] = await redis.scan(cursor, 'MATCH', `${keys.prefix}*`, 'COUNT', CHUNK);
    cursor = next;
    const found = page.filter((key) => {
      const kind = kindOf(keys.prefix, key);
      return kind !== undefined && KEY_KINDS[kind] === 'scanned' && wanted(kind);
    });
    // Commands sent together travel together.
    const described = await Promise.all(found.map((key) => describe(redis, keys, key)));
    for (const { row, hash, expiry } of described) {
      if (row !== undefined) yield { ...row, ...expiry };
      if (hash !== undefined)
        for await (const part of hashRows(redis, keys, hash)) yield { ...part, ...expiry };
    }
  } while (cursor !== '0');
}

type Described = { row?: Row; hash?: string; expiry: { expiresAt?: number } };

async function describe(redis: Redis, keys: Keys, key: string): Promise<Described> {
  const [type, ttl, time] = await Promise.all([redis.type(key), redis.pttl(key), redis.time()]);
  const expiry =
    ttl > 0 ? { expiresAt: Number(time[0]) * 1000 + Math.floor(Number(time[1]) / 1000) + ttl } : {};
  if (type === 'none') return { expiry };
  if (type === 'hash') return { hash: key, expiry };
  if (type !== 'string') throw new Error(`${key} is a ${type}, which no key of its kind is`);
  const value = await redis.get(key);
  return value === null ? { expiry } : { row: { key: short(keys, key), type, value }, expiry };
}

/** The rows of the kinds whose keys are known by name, up to the cut. */
export async function* namedRows(redis: Redis, keys: Keys, cut: Cut): AsyncGenerator<Row> {
  const streams = [...cut.versions.keys()];
  for (const members of chunks(streams)) yield { key: short(keys, keys.streams), type: 'set', members };
  for (const stream of streams) {
    yield* streamRows(redis, keys, keys.events(stream), `${cut.versions.get(stream) ?? 0}-0`);
  }
  const due = cut.due.filter(([stream]) => (cut.versions as ReadonlyMap<string, number>).has(stream));
  for (const members of chunks(due)) yield { key: short(keys, keys.due), type: 'zset', members };
  if (cut.outbox !== null) yield* streamRows(redis, keys, keys.outbox, cut.outbox);
  for await (const row of zsetRows(redis, keys, keys.effectIds)) {
    const members = row.members.filter(([, micros]) => Number(micros) <= cut.micros);
    if (members.length > 0) yield { ...row, members };
  }
  yield* streamRows(redis, keys, keys.poison, '+');
  for (const key of [keys.people, keys.peopleChats, keys.files]) yield* hashRows(redis, keys, key);
}

/** Whether a command's row belongs before the cut; rows of other kinds do. */
export function isBeforeCut(row: Row, cut: Cut): boolean {
  if (!row.key.startsWith('command:') || row.type !== 'string') return true;
  return Number(row.value.split(' ')[1]) <= cut.micros;
}

async function* streamRows(redis: Redis, keys: Keys, key: string, last: string): AsyncGenerator<Row> {
  let from = '-';
  for (;;) {
    const entries = (await redis.xrange(key, from, last, 'COUNT', CHUNK)) as [string, string[]][];
    const end = entries.at(-1);
    if (end === undefined) return;
    yield { key: short(keys, key), type: 'stream', entries };
    from = `(${end[0]}`;
  }
}

async function* hashRows(redis: Redis, keys: Keys, key: string): AsyncGenerator<Row> {
  let cursor = '0';
  do {
    const [next, list] = await redis.hscan(key, cursor, 'COUNT', CHUNK);
    cursor = next;
    for (const fields of chunks(pairwise(list))) yield { key: short(keys, key), type: 'hash', fields };
  } while (cursor !== '0');
}

async function* zsetRows(
  redis: Redis,
  keys: Keys,
  key: string,
): AsyncGenerator<Extract<Row, { type: 'zset' }>> {
  let cursor = '0';
  do {
    const [next, list] = await redis.zscan(key, cursor, 'COUNT', CHUNK);
    cursor = next;
    for (const members of chunks(pairwise(list))) yield { key: short(keys, key), type: 'zset', members };
  } while (cursor !== '0');
}

function short(keys: Keys, key: string): string {
  return key.slice(keys.prefix.length);
}

function* chunks<T>(list: readonly T[]): Generator<T[]> {
  for (let at = 0; at < list.length; at += CHUNK) yield list.slice(at, at + CHUNK);
}
