import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import type { ChainableCommander, Redis } from 'ioredis';
import { KEY_KINDS, kindOf } from '../keys.js';
import type { Keys } from '../keys.js';
import type { Row } from './format.js';
import { rowSchema } from './format.js';

/** Rows sent to Redis at a time. */
const BATCH = 50;

/** Writes the rows of a record.jsonl whose digest has been checked. Throws at the first that Redis refuses. */
export async function writeRows(redis: Redis, keys: Keys, path: string): Promise<void> {
  let batch = redis.pipeline();
  let size = 0;
  for await (const line of createInterface({ input: createReadStream(path), crlfDelay: Infinity })) {
    writeRow(batch, keys, rowSchema.parse(JSON.parse(line)));
    size += 1;
    if (size % BATCH !== 0) continue;
    await send(batch);
    batch = redis.pipeline();
  }
  await send(batch);
}

function writeRow(batch: ChainableCommander, keys: Keys, row: Row): void {
  const key = keys.prefix + row.key;
  const kind = kindOf(keys.prefix, key);
  if (kind === undefined || KEY_KINDS[kind] === 'left-out')
    throw new Error(`No archive holds keys like ${row.key}`);
  switch (row.type) {
    case 'string':
      batch.set(key, row.value);
      break;
    case 'hash':
      batch.hset(key, ...row.fields.flat());
      break;
    case 'set':
      batch.sadd(key, ...row.members);
      break;
    case 'zset':
      batch.zadd(key, ...row.members.flatMap(([member, score]) => [score, member]));
      break;
    case 'stream':
      for (const [id, fields] of row.entries) batch.xadd(key, id, ...fields);
  }
  if (row.expiresAt !== undefined) batch.pexpireat(key, row.expiresAt);
}

async function send(batch: ChainableCommander): Promise<void> {
  for (const [error] of (await batch.exec()) ?? []) if (error) throw error;
}
