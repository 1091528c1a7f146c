import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Stage } from '../../config/demo/stage.js';
import { openStage } from '../../config/demo/stage.js';
import { projectRoot } from '../../config/setup/project.mjs';
import { leaksIn, logsIn } from '../support/clean-logs.js';

const START = Date.parse('2026-03-02T09:00:00Z');
const MECHANIC = 501;
const NAMES = ['Hettie', 'Marl', 'Dale', 'Quentin', 'Harl', 'Dunn', 'Ketterby', 'Zacharias'];
const PHONES = ['01632 960123', '960123', '01632 960177'];

let folder = '';
let stage: Stage;

beforeAll(async () => {
  if (!existsSync(join(projectRoot, 'dist/config/commands/start.js'))) {
    throw new Error('the service is not compiled: run `node config/setup/run.mjs build` once');
  }
  folder = await mkdtemp(join(tmpdir(), 'benchhand-logs-'));
  stage = await openStage({
    ...{ startAt: START, shopFile: 'name: Marl’s workshop\n', mechanics: [MECHANIC], folder },
    env: { LOG_LEVEL: 'trace' },
  });
}, 60_000);

afterAll(async () => {
  await stage.stop();
  await rm(folder, { recursive: true, force: true });
});

it('logs of a conversation hold none of its names, texts, numbers and secrets, even where all goes wrong', async () => {
  const { rehearsal, driver } = stage;
  const hettie = rehearsal.person({ id: MECHANIC, firstName: 'Hettie', lastName: 'Marl', started: true });
  const dale = rehearsal.person({ id: 502, firstName: 'Quentin', lastName: 'Dale', started: true });
  const nobody = rehearsal.person({ id: 503, firstName: 'Zacharias', started: true });
  const tell = async (text: string): Promise<void> => {
    await hettie.say(text);
    await driver.quiet();
  };
  await tell('new job: Ketterby 500 single, owner Mrs Dale, came with two boxes of bits, already stripped');
  await tell('owner Mrs Dale, 01632 960177');
  await tell('supplier Harl & Dunn, chrome and nickel, 01632 960123');
  await tell('invite Mrs Dale');
  const secret = /\?start=([\w-]+)/.exec(hettie.last()?.text ?? '')?.[1] ?? 'none';
  expect(secret.length).toBeGreaterThan(20);
  await dale.open(secret);
  await driver.quiet();
  await hettie.press((button) => button.text.startsWith('Yes'));
  await driver.quiet();

  // The chat breaks off: what it was being sent is in the errors.
  rehearsal.fail({ kind: 'drop', method: 'sendMessage', times: 2 });
  await tell('front rim rusty and pitted near the valve, send it for chrome, 90 quid');
  rehearsal.fail({ kind: 'drop', method: 'sendMessage', times: 2, afterEffect: true });
  await tell('ask the owner');
  rehearsal.fail({ kind: 'drop', method: 'file', times: 1 });
  await dale.say('Please do the rim, my late uncle Zacharias rode it to the sea');
  await hettie.photo(Buffer.from('no picture'), { caption: 'tank dented by the falling ladder' });
  await nobody.say('Let me in, I am a friend of Quentin');
  await rehearsal.inject({ message: { text: 'a broken message about the Ketterby' } } as never);
  await driver.quiet();

  const chats = [hettie, dale, nobody].flatMap((person) => person.messages());
  const texts = chats.map(({ text }) => text);
  const tokens = chats.flatMap(({ buttons }) => buttons.flat().flatMap(({ data }) => data ?? []));
  expect(texts.length).toBeGreaterThan(15);
  expect(tokens.length).toBeGreaterThan(5);
  const bot = [rehearsal.token, rehearsal.token.split(':')[1] ?? 'none'];
  const lines = await logsIn(folder);
  expect(lines.filter((line) => line.includes('could not be handled')).length).toBeGreaterThan(0);
  const secrets = [
    ...PHONES,
    secret,
    ...tokens,
    ...bot,
    'falling ladder',
    'late uncle',
    'near the valve',
    'broken message',
  ];
  expect(leaksIn(lines, { names: NAMES, texts, secrets })).toEqual([]);
}, 60_000);
