import type { Redis } from 'ioredis';
import type { Seen } from '../../../bot/rehearsal/seen.js';
import type { ShopRecord } from '../../../src/record/types.js';

/** What somebody could be known by, and when they were forgotten, Unix seconds. */
export type Gone = { traces: readonly string[]; at: number };

/** Traces of somebody forgotten in words that are kept, each with where it is. */
export async function tracesKept(
  record: Pick<ShopRecord, 'streams' | 'texts' | 'people'>,
  gone: readonly Gone[],
): Promise<string[]> {
  if (gone.length === 0) return [];
  const people = (await record.people.all()).map((person) => JSON.stringify(person)).join('\n');
  const found = tracesIn(people, gone, 'among the people');
  for (const stream of await record.streams()) {
    const texts = [...(await record.texts(stream)).values()].join('\n');
    found.push(...tracesIn(texts, gone, `in the words of ${stream}`));
  }
  return found;
}

/** The same of all that Redis holds, queues and passing things too. */
export async function tracesInRedis(redis: Redis, gone: readonly Gone[]): Promise<string[]> {
  if (gone.length === 0) return [];
  const found: string[] = [];
  let cursor = '0';
  do {
    const [next, keys] = await redis.scan(cursor, 'COUNT', 500);
    cursor = next;
    for (const key of keys)
      found.push(...tracesIn(`${key}\n${await valueOf(redis, key)}`, gone, `in ${key}`));
  } while (cursor !== '0');
  return found;
}

async function valueOf(redis: Redis, key: string): Promise<string> {
  switch (await redis.type(key)) {
    case 'string':
      return (await redis.get(key)) ?? '';
    case 'hash':
      return JSON.stringify(await redis.hgetall(key));
    case 'stream':
      return JSON.stringify(await redis.xrange(key, '-', '+'));
    case 'list':
      return (await redis.lrange(key, 0, -1)).join('\n');
    case 'set':
      return (await redis.smembers(key)).join('\n');
    case 'zset':
      return (await redis.zrange(key, 0, -1)).join('\n');
    default:
      return '';
  }
}

/** Traces in what the bot wrote to anybody after the instant of the forgetting, whose own answer names them a last time. */
export function tracesSent(who: string, messages: readonly Seen[], gone: readonly Gone[]): string[] {
  return gone.flatMap((each) =>
    messages
      .filter(({ by, date }) => by === 'bot' && date > each.at)
      .flatMap(({ text, buttons }) =>
        tracesIn(
          [text, ...buttons.flat().map((button) => button.text)].join('\n'),
          [each],
          `in a message to ${who}`,
        ),
      ),
  );
}

function tracesIn(text: string, gone: readonly Gone[], where: string): string[] {
  return gone
    .flatMap(({ traces }) => traces)
    .filter((trace) => text.includes(trace))
    .map((trace) => `${trace} was to be forgotten, and is ${where}`);
}
