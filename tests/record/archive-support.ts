import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { makeKeys } from '../../src/record/keys.js';
import type { ShopRecord } from '../../src/record/types.js';
import type { Bench } from './support.js';
import { anAppend, anyShop, event } from './support.js';

const limitBytes = 1_000_000;

/** Everything in Redis under a shop, by what each key says to Redis's own reading commands; expiry to the second. */
export async function everything({ redis }: Bench, shop: string): Promise<Record<string, unknown>> {
  const { prefix } = makeKeys(shop);
  const found: Record<string, unknown> = {};
  for (const key of (await redis.keys(`${prefix}*`)).sort()) {
    const type = await redis.type(key);
    const ttl = await redis.pttl(key);
    found[key.slice(prefix.length)] = {
      ...{ type, expires: ttl < 0 ? ttl : Math.round((Date.now() + ttl) / 2000) },
      value:
        type === 'string'
          ? await redis.get(key)
          : type === 'hash'
            ? await redis.hgetall(key)
            : type === 'set'
              ? (await redis.smembers(key)).sort()
              : type === 'zset'
                ? await redis.zrange(key, 0, -1, 'WITHSCORES')
                : await redis.xrange(key, '-', '+'),
    };
  }
  return found;
}

export async function clear({ redis }: Bench, shop: string): Promise<void> {
  await redis.del(...(await redis.keys(`${makeKeys(shop).prefix}*`)));
}

export type Kept = { record: ShopRecord; shop: string; filesDir: string; outPath: string };

/** A shop with something of every kind in it, some of it enough for several rows. */
export async function aShop(bench: Bench): Promise<Kept> {
  const filesDir = await bench.folder();
  const shop = anyShop();
  const record = bench.open({ shop, filesDir });
  const events = Array.from({ length: 450 }, (_, n) => event({ n, said: `été 🛠 ${n}\n` }));
  const texts = Object.fromEntries(Array.from({ length: 700 }, (_, n) => [`t-${n}`, `words ${n}`]));
  const effects = Array.from(
    { length: 300 },
    (_, n) => ({ id: `e-${n}`, queue: 'send', data: { n } }) as const,
  );
  await record.append(anAppend({ events, texts, effects, dueAt: 9 }));
  await record.append(anAppend({ stream: 'contact-2', dueAt: 8 }));
  await record.outbox.ack(await record.outbox.read('relay', { count: 100, blockMs: 1 }));
  await record.outbox.read('relay', { count: 50, blockMs: 1 });
  await record.inbox.begin('u-1', { read: true });
  await record.inbox.finish('u-2', { reply: 'Logged.' });
  await record.inbox.failed('u-3');
  await record.inbox.poison('u-3', { raw: 1 });
  await record.people.put('p-1', { id: 'p-1', name: 'Ann Otter', chatId: 7 });
  await record.context.set('p-1', { bench: 'job-1', item: 3 });
  await record.buttons.put('tok', { undo: 'm' });
  await record.chatMessages.put(7, 8, { items: [1] });
  await record.files.put(Buffer.from('a photo'), { mime: 'image/jpeg', limitBytes });
  await record.files.put(randomBytes(200_000), { limitBytes });
  return { record, shop, filesDir, outPath: join(await bench.folder(), 'shop.tar.gz') };
}
