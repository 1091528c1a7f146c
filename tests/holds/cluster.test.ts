import { afterAll, beforeAll, expect, it } from 'vitest';
import { setTimeout as pause } from 'node:timers/promises';
import type { LivingShop } from '../support/living-shop.js';
import { startLivingShop } from '../support/living-shop.js';
import type { TestRedis } from '../support/redis.js';
import { startTestRedis } from '../support/redis.js';

const MONDAY = Date.parse('2026-03-02T09:00:00Z');
const LAST_SLOT = 16_383;

let redis: TestRedis;
let shop: LivingShop;

/** One node with all slots is enough: in cluster mode it refuses every command and script whose keys lie in two slots. */
beforeAll(async () => {
  redis = await startTestRedis({ extra: ['--cluster-enabled', 'yes'] });
  const admin = redis.connect();
  await admin.cluster('ADDSLOTSRANGE', 0, LAST_SLOT);
  while (!String(await admin.cluster('INFO')).includes('cluster_state:ok')) await pause(20);
  shop = await startLivingShop(MONDAY, { redis });
});

afterAll(async () => {
  await shop.stop();
  await redis.stop();
});

it('is a cluster: keys of two slots in one command are refused', async () => {
  await expect(redis.connect().mset('a', 1, 'b', 2)).rejects.toThrow('CROSSSLOT');
});

it('talks, sends out and chases with every command and script in one slot', async () => {
  const { mechanic, driver, rehearsal, warnings } = shop;
  await shop.say(mechanic, 'new job: Larkspur 350 single, owner Mrs Quillfeather, already stripped');
  await shop.say(mechanic, 'supplier Brindlewick Plating, chrome, 01632 960123');
  const plater = rehearsal.person({ id: 9002, firstName: 'Bo' });
  await shop.letIn('Brindlewick Plating', plater);
  await shop.say(mechanic, 'handlebar rusty, send it for chrome, 40 quid');
  await shop.say(mechanic, 'sent the handlebar to Brindlewick, they say 10 March');
  await driver.moveTo(MONDAY + 10 * 24 * 3_600_000);
  const chased = plater.messages().filter(({ text }) => text.startsWith('Hello from'));
  expect(chased.length).toBeGreaterThan(0);
  expect(await shop.say(mechanic, 'what’s overdue?')).toContain('Brindlewick');
  expect(warnings.filter((line) => line.includes('CROSSSLOT'))).toEqual([]);
});
