import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Desk, Incoming } from '../../src/desk/desk.js';
import { openDesk } from '../../src/desk/open-desk.js';
import type { ShopRecord } from '../../src/record/types.js';
import { openRecord } from '../../src/record/index.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import type { Answer } from '../../src/wording/answer.js';
import { textOf } from '../../src/wording/answer.js';
import type { TestRedis } from '../support/redis.js';
import { startTestRedis } from '../support/redis.js';

let redis: TestRedis;
let record: ShopRecord;
let desk: Desk;
let filesDir: string;
let count = 0;

const MECHANIC = 501;
const START = Date.parse('2026-03-02T09:00:00Z');

beforeAll(async () => {
  redis = await startTestRedis();
  filesDir = await mkdtemp(join(tmpdir(), 'benchhand-plan-'));
  record = openRecord({ redis: redis.connect(), shop: 'plan', filesDir });
  desk = openDesk({
    record,
    log: pino({ level: 'silent' }),
    policyFromFile: DEFAULT_POLICY,
    canListen: false,
    secretOf: () => 'secret',
    linkFor: (secret) => `link/${secret}`,
  });
  await desk.letIn([MECHANIC], START);
  await say('new job: Ketterby 500 single, owner Mrs Dale, came in boxes, already stripped');
  await say('supplier Harl & Dunn, chrome and nickel, 01632 960123');
  await say('wheel rims rusty, send them for chrome, 40 quid');
  await say('magneto weak, send it for a rewind, 45 quid');
  await say('petrol tank rusty, send it for paint, 45 quid');
  await say('sent the wheel rims to Harl & Dunn, they say 20 April');
});

afterAll(async () => {
  await record.close();
  await redis.stop();
  await rm(filesDir, { recursive: true, force: true });
});

async function say(text: string, daysOn = 0): Promise<Answer> {
  count += 1;
  const who = await desk.who(MECHANIC);
  if (who.kind !== 'person') throw new Error('the mechanic was let in');
  const message: Incoming = {
    ...{ key: `u${count}`, person: who.person, chatId: MECHANIC, messageId: count, text },
    at: START + daysOn * 86_400_000 + count * 60_000,
    ...{ source: 'typed', attachments: [], replyTo: null, edited: false, album: null, forwarded: false },
  };
  return desk.bench(message);
}

async function pngOf(answer: Answer): Promise<Buffer> {
  const [photo] = answer.photos ?? [];
  if (!photo) throw new Error(`no picture, but: ${textOf(answer)}`);
  return readFile(record.files.path(photo.hash));
}

/** The first eight bytes of a PNG: W3C, Portable Network Graphics (third edition), 5.2. */
const PNG_SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

it('says when it will be ready with its chances, never a bare date', async () => {
  const text = textOf(await say('when will the Ketterby be ready?'));
  expect(text).toMatch(/four chances in five/);
  expect(text).toMatch(/It hangs on .*(wheel rim|magneto|petrol tank)/);
});

it('answers what a late supplier would do to the day', async () => {
  const late = textOf(await say('what if Harl & Dunn are six weeks late?'));
  expect(late).toMatch(/Ketterby: ready .*four chances in five/);
  expect(late).toMatch(/\d+ days? later than as things are/);
  const trade = textOf(await say('what if the plater is six weeks late?'));
  expect(trade).toBe(late);
});

it('answers what buying new would do, and says so where nothing waits for a thing', async () => {
  expect(textOf(await say('what if we buy the magneto new?'))).toMatch(/sooner|later|moves nothing/);
  expect(textOf(await say('what if 99 is a week late?'))).toMatch(/Nothing waits for that/);
});

it('draws the job’s timeline and the shop’s fortnight as pictures', async () => {
  for (const asked of ['timeline', 'fortnight']) {
    const png = await pngOf(await say(asked));
    expect(png.subarray(0, 8)).toEqual(PNG_SIGNATURE);
  }
});
