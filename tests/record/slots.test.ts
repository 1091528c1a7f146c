import calculateSlot from 'cluster-key-slot';
import { expect, it } from 'vitest';
import { appendKeys } from '../../src/record/append.js';
import { glanceKeys } from '../../src/record/glance.js';
import { makeKeys, queuePrefix, shopPrefix } from '../../src/record/keys.js';
import { anAppend, anyShop, useBench } from './support.js';

const bench = useBench();

/** Slots by ioredis's own dependency; Redis's documented CRC16 of the hash tag. */
it('keeps all keys of a shop in one slot, and shops in slots of their own', () => {
  const keys = makeKeys('shed-1');
  const all = [
    ...appendKeys(keys, anAppend({ stream: 'contact-9', commandId: 'odd {id}:with}braces{' })),
    ...appendKeys(
      keys,
      anAppend({ stream: 'contact-9', commandId: 'c', begun: { key: 'bot:7', reading: 1 } }),
    ),
    ...[keys.inboxTries('bot:7'), keys.poison, keys.people, keys.peopleChats],
    ...[keys.context('p'), keys.button('t'), keys.chatMessage(-5, 7), keys.files, keys.lease('poller')],
    ...[keys.clock, keys.restoring, `${queuePrefix('shed-1')}:send:wait`],
  ];
  expect(new Set(all).size).toBe(22);
  all.push(
    ...glanceKeys(keys, { update: 'bot {x}:8', chatId: 1, streams: [['job-4', 0]], benches: ['}p{'] }),
  );
  expect(new Set(all.map((key) => calculateSlot(key)))).toEqual(new Set([calculateSlot('shed-1')]));
  const shops = Array.from({ length: 50 }, (_, n) => calculateSlot(makeKeys(`shed-${n}`).streams));
  expect(new Set(shops).size).toBeGreaterThan(40);
});

it('puts into Redis no key outside the slot, whatever is kept', async () => {
  const record = bench.open({ filesDir: await bench.folder() });
  const before = new Set(await bench.redis.keys('*'));
  await record.append(
    anAppend({ texts: { t: 'x' }, dueAt: 1, effects: [{ id: 'e', queue: 'wake', data: {} }] }),
  );
  await record.outbox.read('relay', { count: 1, blockMs: 1 });
  await record.inbox.begin('u', 1);
  await record.inbox.failed('u');
  await record.inbox.poison('v', 1);
  await record.people.put('p', { id: 'p', name: 'A', chatId: 1 });
  await record.context.set('p', { a: 1 });
  await record.buttons.put('b', 1);
  await record.chatMessages.put(1, 2, 3);
  await record.lease.take('l', 'h', 1000);
  await record.clock.set(1);
  await record.files.put(Buffer.from('x'), { limitBytes: 9 });
  const added = (await bench.redis.keys(`*${record.shop}*`)).filter((key) => !before.has(key));
  expect(added.length).toBeGreaterThanOrEqual(16);
  expect(new Set(added.map((key) => calculateSlot(key)))).toEqual(new Set([calculateSlot(record.shop)]));
});

it('takes no shop id that would break the hash tag', () => {
  for (const shop of ['', 'a}b', 'a b', 'a:b', 'x'.repeat(65)])
    expect(() => shopPrefix(shop)).toThrow("shop's id");
  expect(shopPrefix(anyShop())).toMatch(/^benchhand:\{test-/);
});
