import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { ServiceProcess } from '../../config/demo/service-process.js';
import { startServiceProcess } from '../../config/demo/service-process.js';
import { projectRoot } from '../../config/setup/project.mjs';
import { withRedis } from './support/with-redis.js';
import { percentile, printTable, timed } from './support/figures.js';

const ROUNDS = 12;
const A_ROUND = 20;
/** Rounds that are not counted: V8 compiles what is used often after some hundred uses, and a service runs for weeks. */
const WARMING = 5;

/** What a mechanic says on a day at the bench, in turn. */
const TALK = [
  'front rim rusty, send it for chrome, 90 quid',
  'took the dynamo off, it’s in box 3',
  'nearside fork stanchion pitted, new pair, about eighty quid',
  'tank dented on the left, send it for paint',
  'head steady cracked',
  'where is 2?',
  'what’s blocking the strip?',
  'clutch plates worn, 2.4 mm, new set, 35 quid',
  'not 5, 4',
  'big end has no play, keep it',
];

type Times = { ours: number[]; bare: number[] };

/** Says something and gives the ms until the answer stands in the chat. */
async function answerTime(person: Person, text: string): Promise<number> {
  return timed(async () => {
    const { messageId } = await person.say(text);
    await person.waitFor(() => true, { after: messageId });
  });
}

/** Both are spoken to in turn, so that whatever else the machine does falls on both. */
async function talkToBoth(rehearsal: Rehearsal, mechanic: Person, writer: Person): Promise<Times> {
  await answerTime(mechanic, 'new job: Ketterby 500 single, owner Mrs Dale, came in boxes');
  const times: Times = { ours: [], bare: [] };
  for (let round = -WARMING; round < ROUNDS; round += 1) {
    for (const [person, list] of [
      [mechanic, times.ours],
      [writer, times.bare],
    ] as const) {
      for (let n = 0; n < A_ROUND; n += 1) {
        const ms = await answerTime(person, TALK[n % TALK.length] ?? '');
        await rehearsal.quiet();
        if (round >= 0) list.push(ms);
      }
    }
  }
  return times;
}

/**
 * One Redis, one chat server, two bots that are polled for and answered over the same HTTP. The bare one appends the update as
 * it came and says it back: no buttons, nothing kept of what it said, nothing read. Ours finds out who writes and whether
 * the update came before, understands it, decides, appends, and says what it understood, with its buttons. Neither's next message is said
 * before its last update is confirmed. Ours runs as it does in a shop, bot and workers in one process.
 */
async function measure(redisUrl: string, folder: string): Promise<Times> {
  const rehearsal = await startRehearsal({ now: Date.now });
  const bare = rehearsal.host({ token: '700000002:another-token-never-real-at-all', username: 'bare_bot' });
  const env = { ...process.env, BOT_API_ROOT: rehearsal.url, REDIS_URL: redisUrl };
  const start = (name: string, path: string, args: string[], more: NodeJS.ProcessEnv): ServiceProcess =>
    startServiceProcess({
      ...{ name, args, program: join(projectRoot, 'dist', path), env: { ...env, ...more } },
      logFile: join(folder, `${name}.log`),
    });
  const processes = [
    start('benchhand', 'config/commands/start.js', ['--only', 'bot,workers'], {
      ...{ BOT_TOKEN: rehearsal.token, MECHANIC_IDS: '501', DATA_DIR: folder, LOG_LEVEL: 'warn' },
    }),
    start('bare', 'tests/bench/support/bare-bot.js', [], { BOT_TOKEN: bare.token }),
  ];
  try {
    await Promise.all([rehearsal, bare].map((each) => each.polled({ timeoutMs: 30_000 })));
    const mechanic = rehearsal.person({ id: 501, firstName: 'Hettie', started: true });
    const writer = bare.person({ id: 501, firstName: 'Hettie', started: true });
    return await talkToBoth(rehearsal, mechanic, writer);
  } finally {
    await Promise.all(processes.map((each) => each.stop()));
    await rehearsal.stop();
  }
}

await withRedis(async (redis) => {
  const folder = await mkdtemp(join(tmpdir(), 'benchhand-latency-'));
  const times = await measure(redis.url, folder);
  await rm(folder, { recursive: true, force: true });
  printTable(
    'message in to reply out, at the bench',
    'a bare grammY bot with one Redis append, the same fsync',
    [
      ['half of them within', 0.5, 1.5],
      ['95 in 100 within', 0.95, 2],
    ].map(([what, share, atMost]) => ({
      what: String(what),
      ours: percentile(times.ours, Number(share)),
      baseline: percentile(times.bare, Number(share)),
      ...{ unit: 'ms', atMost: Number(atMost) },
    })),
  );
});
