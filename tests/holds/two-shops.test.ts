import { readdir } from 'node:fs/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { LivingShop } from '../support/living-shop.js';
import { startLivingShop } from '../support/living-shop.js';
import type { TestRedis } from '../support/redis.js';
import { startTestRedis } from '../support/redis.js';

const MONDAY = Date.parse('2026-03-02T09:00:00Z');

let redis: TestRedis;
let shops: { wren: LivingShop; robin: LivingShop };

/** Two shops in one Redis, each with its own bot, key and files; each says words that the other never does. */
beforeAll(async () => {
  redis = await startTestRedis();
  // Words are searched for in what DUMP gives: it shall give them as they are.
  await redis.connect().config('SET', 'rdbcompression', 'no');
  shops = {
    wren: await startLivingShop(MONDAY, { redis, shop: 'wren' }),
    robin: await startLivingShop(MONDAY, { redis, shop: 'robin' }),
  };
  const { wren, robin } = shops;
  await Promise.all([
    wren.say(wren.mechanic, 'new job: Larkspur 350 single, owner Mrs Quillfeather'),
    robin.say(robin.mechanic, 'new job: Ketterby 500 single, owner Mr Tobin'),
  ]);
  await Promise.all([
    wren.mechanic.photo(Buffer.from('picture of the one'), { caption: 'dynamo cracked' }),
    robin.mechanic.photo(Buffer.from('picture of the other'), { caption: 'magneto weak' }),
  ]);
  await Promise.all([wren.driver.quiet(), robin.driver.quiet()]);
});

afterAll(async () => {
  await Promise.all([shops.wren.stop(), shops.robin.stop()]);
  await redis.stop();
});

/** Everything that a shop's keys hold, as text. */
async function dumpOf(shop: string): Promise<string> {
  const client = redis.connect();
  const keys = await client.keys(`benchhand:{${shop}}:*`);
  const dumps = await Promise.all(keys.map((key) => client.dumpBuffer(key)));
  return [...keys, ...dumps.map((dump) => dump.toString('latin1'))].join('\n');
}

it('has no key that is neither’s', async () => {
  const keys = await redis.connect().keys('*');
  const theirs = keys.filter((key) => /^benchhand:\{(wren|robin)\}:/.test(key));
  expect(theirs.length).toBeGreaterThan(20);
  expect(keys.filter((key) => !theirs.includes(key))).toEqual([]);
});

it('keeps the words of each out of the other’s keys', async () => {
  const [wren, robin] = await Promise.all([dumpOf('wren'), dumpOf('robin')]);
  for (const word of ['Larkspur', 'Quillfeather', 'dynamo cracked']) expect(wren).toContain(word);
  for (const word of ['Ketterby', 'Tobin', 'magneto weak']) expect(robin).toContain(word);
  expect(wren).not.toMatch(/Ketterby|Tobin|magneto weak/);
  expect(robin).not.toMatch(/Larkspur|Quillfeather|dynamo cracked/);
});

it('answers each of its own alone, and keeps its files apart', async () => {
  const { wren, robin } = shops;
  const [wrens, robins] = [
    await wren.say(wren.mechanic, 'machines'),
    await robin.say(robin.mechanic, 'machines'),
  ];
  expect(wrens).toContain('Larkspur');
  expect(wrens).not.toContain('Ketterby');
  expect(robins).toContain('Ketterby');
  expect(robins).not.toContain('Larkspur');
  const files = await Promise.all([wren, robin].map((shop) => readdir(shop.filesDir, { recursive: true })));
  expect(files[0]?.length).toBeGreaterThan(0);
  expect(files[0]?.filter((name) => files[1]?.includes(name) && /[0-9a-f]{20}/.test(name))).toEqual([]);
});
