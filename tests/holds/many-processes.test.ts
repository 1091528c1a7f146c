import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Person } from '../../bot/rehearsal/person.js';
import type { Stage } from '../../config/demo/stage.js';
import { openStage } from '../../config/demo/stage.js';
import { projectRoot } from '../../config/setup/project.mjs';
import { MECHANIC_CHATS, seatMechanics } from '../../config/year/cast.js';
import { unasked } from '../../config/year/invariants/messages.js';
import { makeTelling } from '../../config/year/telling.js';

/** Three processes that relay, wake and send, each named by the order of its parts, beside the bot. */
const WORKERS = ['relay,wake,send', 'wake,send,relay', 'send,relay,wake'];
const START = Date.parse('2026-03-02T09:40:00Z');
const DAY = 24 * 3_600_000;
const FIRMS = ['Brask', 'Kelwick', 'Torlock', 'Wexmere', 'Hulford', 'Norgate'];
const PARTS = ['handlebar', 'exhaust pipe', 'headlamp rim', 'petrol cap', 'kickstart lever', 'gear lever'];

let stage: Stage;

beforeAll(async () => {
  stage = await openStage({
    ...{ startAt: START, shopFile: 'zone: Europe/London\n', mechanics: MECHANIC_CHATS },
    parts: ['bot', ...WORKERS, 'fetch,transcribe'],
    env: { WORKER_LOCK_SECONDS: '2' },
  });
}, 60_000);
afterAll(() => stage.stop());

it('does each thing once while workers come and go under load', async () => {
  let replaced = 0;
  /** A worker in turn is stopped in good order while something is under way; kills are told apart in kills.test.ts. */
  const change = async (): Promise<void> => {
    replaced += 1;
    if (replaced % 4 === 0) await stage.replace(WORKERS[replaced % WORKERS.length] ?? '', 'stop');
  };
  const telling = makeTelling(stage, change);
  const [mechanic] = seatMechanics(stage.rehearsal);
  if (!mechanic) throw new Error('a shop has a mechanic');
  await telling.say(mechanic, 'new job: Larkspur 350 single, owner Mrs Quillfeather, already stripped');
  const chats: Person[] = [];
  for (const [index, firm] of FIRMS.entries()) {
    const chat = stage.rehearsal.person({ id: 3000 + index, firstName: firm });
    chats.push(chat);
    await telling.say(mechanic, `supplier ${firm} Plating, chrome, 01632 96010${index}`);
    await telling.invite(mechanic, `${firm} Plating`, chat);
    await telling.say(mechanic, `${PARTS[index]} rusty, send it for chrome, 20 quid`);
    await telling.say(mechanic, `sent the ${PARTS[index]} to ${firm} Plating, due 11 March`);
  }
  const moving = stage.driver.moveTo(START + 21 * DAY);
  for (const name of WORKERS) await stage.replace(name, 'stop');
  await moving;
  expect(replaced).toBeGreaterThan(20);
  for (const chat of chats) {
    // By the default ladder: the first working day after the promise, and three working days on.
    const chased = unasked(chat.messages()).filter(
      ({ text }) => text.includes('haven’t reached us') || text.includes('not yet here'),
    );
    expect(chased.map(({ date }) => new Date(date * 1000).toISOString().slice(0, 10))).toEqual([
      '2026-03-12',
      '2026-03-17',
    ]);
  }
  expect(await stage.record.outbox.size()).toBe(0);
}, 180_000);

it.each(['bot', 'workers'])('--only %s is refused where no Redis is named to share', async (part) => {
  const program = join(projectRoot, 'dist/config/commands/start.js');
  const child = spawn(process.execPath, [program, '--only', part], {
    env: { ...process.env, REDIS_URL: '', BOT_TOKEN: '700000009:a-token-that-was-never-real-at-all' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const said: string[] = [];
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (bytes: Buffer) => said.push(bytes.toString()));
  const [code] = (await once(child, 'close')) as [number | null];
  expect(code).toBe(1);
  expect(said.join('')).toContain('REDIS_URL must name the Redis they share');
});
