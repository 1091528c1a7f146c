import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Desk, Incoming } from '../../src/desk/desk.js';
import { openDesk } from '../../src/desk/open-desk.js';
import { openRecord } from '../../src/record/index.js';
import type { ShopRecord } from '../../src/record/types.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import { textOf } from '../../src/wording/answer.js';
import type { TestRedis } from '../support/redis.js';
import { startTestRedis } from '../support/redis.js';

let redis: TestRedis;
let record: ShopRecord;
let desk: Desk;
let filesDir: string;
let count = 0;
const MECHANIC = 502;
const START = Date.parse('2026-03-02T09:00:00Z');

beforeAll(async () => {
  redis = await startTestRedis();
  filesDir = await mkdtemp(join(tmpdir(), 'benchhand-corrections-'));
  record = openRecord({ redis: redis.connect(), shop: 'corrections', filesDir });
  desk = openDesk({
    record,
    log: pino({ level: 'silent' }),
    policyFromFile: DEFAULT_POLICY,
    canListen: false,
    secretOf: () => 'secret',
    linkFor: (secret) => `link/${secret}`,
  });
  await desk.letIn([MECHANIC], START);
  await say('new job: Ketterby 500 single');
});

afterAll(async () => {
  await record.close();
  await redis.stop();
  await rm(filesDir, { recursive: true, force: true });
});

async function say(text: string, replyTo: number | null = null): Promise<string> {
  count += 1;
  const who = await desk.who(MECHANIC);
  if (who.kind !== 'person') throw new Error('the mechanic was let in');
  const message: Incoming = {
    ...{ key: `u${count}`, person: who.person, chatId: MECHANIC, messageId: count, text },
    at: START + count * 60_000,
    ...{ source: 'typed', attachments: [], replyTo, edited: false, album: null, forwarded: false },
  };
  return textOf(await desk.bench(message));
}

it('puts the side right, and leaves no second thing behind', async () => {
  await say('nearside fork tube pitted, new pair, about eighty quid');
  expect(await say('make that the offside')).toMatch(
    /1 · right fork stanchions: pitted\. Replace, about £80/,
  );
  expect(await say('list')).not.toMatch(/2 ·/);
});

it('puts the price right', async () => {
  expect(await say('no, I meant ninety quid')).toMatch(/1 · right fork stanchions: pitted\. Replace, .*£90/);
});

it('learns the shop’s name for a thing when told what it is, uses it, and unlearns it', async () => {
  expect(await say('wobbler bent, new one')).toMatch(/wobbler/);
  expect(await say("no, that's the selector fork")).toMatch(/selector fork: bent\. Replace/);
  expect(await say('wobbler cracked')).toMatch(/selector fork: cracked/);
  await say('forget the word wobbler');
  expect(await say('wobbler noisy')).not.toMatch(/selector fork/);
});

it('takes a finding that begins with no for what it is', async () => {
  expect(await say('no cracks in the head')).toMatch(/cylinder head/);
});

it('takes a correction in reply to an earlier message as said of what that spoke of', async () => {
  await say('magneto weak, send it for a rewind, 140 quid');
  const earlier = count;
  await say('carburettor wants a good clean');
  expect(await say('make that 150 quid', earlier)).toMatch(/magneto.*£150/);
  expect(await say('what has it cost so far?')).not.toMatch(/carburettor.*£150/);
});

it.each(['not the front, the rear', 'no, not the front, the rear', 'no, the rear'])(
  'puts the place right where it is told “%s”',
  async (words) => {
    expect(await say('front number plate bent, straighten it')).toMatch(/front number plate/);
    const answer = await say(words);
    expect(answer).toMatch(/rear number plate: bent/);
    expect(await say('list')).not.toMatch(/front number plate/);
    await say('undo');
  },
);
