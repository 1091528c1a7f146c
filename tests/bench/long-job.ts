import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import type { Desk, Incoming } from '../../src/desk/desk.js';
import { openDesk } from '../../src/desk/open-desk.js';
import type { ShopRecord } from '../../src/record/index.js';
import { openRecord } from '../../src/record/index.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import type { TestRedis } from '../support/redis.js';
import { median, printTable, timed } from './support/figures.js';
import { withRedis } from './support/with-redis.js';

const START = Date.parse('2026-03-02T09:00:00Z');
const SHORT = 50;
const LONG = 2_000;
const ANSWERS = 60;
/** What is said again and again, so that the list stays the same and the history grows. */
const TALK = [
  'front rim rusty again',
  'petrol tank dented on the left',
  'dynamo weak',
  'saddle torn at the back',
];
const ASKED = {
  'a finding logged': 'front rim pitted',
  'a question': 'where is 1?',
  'what blocks a gate': 'what’s blocking the strip?',
};

type Bench = { desk: Desk; record: ShopRecord; say: (text: string) => Promise<unknown> };

async function openBench(redis: TestRedis, filesDir: string, shop: string): Promise<Bench> {
  const record = openRecord({ redis: redis.connect(), shop, filesDir });
  const desk = openDesk({
    ...{ record, log: pino({ level: 'silent' }), policyFromFile: DEFAULT_POLICY, canListen: false },
    ...{ secretOf: () => 'secret', linkFor: (secret) => secret },
  });
  await desk.letIn([501], START);
  let count = 0;
  const say: Bench['say'] = (text) => {
    count += 1;
    const message: Incoming = {
      ...{
        key: `u${count}`,
        person: 'mechanic-1',
        chatId: 501,
        messageId: count,
        text,
        at: START + count * 1_000,
      },
      ...{ source: 'typed', attachments: [], replyTo: null, edited: false, album: null, forwarded: false },
    };
    return desk.bench(message);
  };
  await say('new job: Ketterby 500 single, owner Mrs Dale');
  return { desk, record, say };
}

/** Talks until the job's stream is so long. */
async function talkUpTo({ record, say }: Bench, events: number): Promise<void> {
  const stream = (await record.streams()).find((each) => each.startsWith('job-')) ?? 'job-1';
  for (let n = 0; (await record.events(stream, Number.MAX_SAFE_INTEGER)).version < events; n += 1) {
    await say(TALK[n % TALK.length] ?? '');
  }
}

await withRedis(async (redis) => {
  const filesDir = await mkdtemp(join(tmpdir(), 'benchhand-long-'));
  const short = await openBench(redis, filesDir, 'short');
  const long = await openBench(redis, filesDir, 'long');
  await talkUpTo(short, SHORT);
  await talkUpTo(long, LONG);
  const figures = [];
  for (const [what, text] of Object.entries(ASKED)) {
    const times: { short: number[]; long: number[] } = { short: [], long: [] };
    for (let n = 0; n < ANSWERS; n += 1) {
      times.short.push(await timed(() => short.say(text)));
      times.long.push(await timed(() => long.say(text)));
    }
    figures.push({ what, ours: median(times.long), baseline: median(times.short), unit: 'ms', atMost: 3 });
  }
  await Promise.all([short.record.close(), long.record.close()]);
  await rm(filesDir, { recursive: true, force: true });
  printTable(`answering in a job of ${LONG} events`, `a job of ${SHORT} events`, figures);
});
