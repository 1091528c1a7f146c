import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Person } from '../../bot/rehearsal/person.js';
import type { LivingShop } from '../support/living-shop.js';
import { startLivingShop } from '../support/living-shop.js';

const DAY = 86_400_000;
const START = Date.parse('2026-03-02T09:00:00Z');

let shop: LivingShop;
let plater: Person;
let owner: Person;

beforeAll(async () => {
  shop = await startLivingShop(START);
  const { mechanic, say, letIn, rehearsal } = shop;
  await say(mechanic, 'new job: Ketterby 500 single, owner Mrs Dale');
  await say(mechanic, 'supplier Harl & Dunn, chrome, 01632 960123');
  plater = rehearsal.person({ id: 9002, firstName: 'Bo' });
  owner = rehearsal.person({ id: 9003, firstName: 'Ada' });
  await letIn('Harl & Dunn', plater);
  await letIn('Mrs Dale', owner);
});

afterAll(() => shop.stop());

it.each([
  ['emoji', '😀🔧😀'],
  ['another alphabet', 'τι γίνεται με το μοτέρ'],
  ['words it doesn’t know', 'flibber the wazzock'],
  ['4,000 characters', `${'it went on and on and on '.repeat(160)}`.slice(0, 4000)],
])('keeps %s and says so', async (_, text) => {
  const before = shop.mechanic.messages().length;
  const answer = await shop.say(shop.mechanic, text);
  expect(shop.mechanic.messages().length).toBeGreaterThan(before + 1);
  expect(answer).not.toBe('');
  const jobs = (await shop.record.streams()).filter((stream) => stream.startsWith('job-'));
  const kept = await Promise.all(jobs.map((stream) => shop.record.texts(stream)));
  expect(kept.flatMap((texts) => [...texts.values()]).join('\n')).toContain(text.trim().slice(0, 40));
});

it('says plainly what it can’t read: a sticker, a place', async () => {
  await shop.mechanic.sticker();
  await shop.driver.quiet();
  expect(shop.mechanic.last()?.text).toMatch(/not that/);
  await shop.mechanic.send({ location: { latitude: 1, longitude: 2 } });
  await shop.driver.quiet();
  expect(shop.mechanic.last()?.text).toMatch(/not that/);
});

it('keeps a voice note that nothing listens to, and points to the keyboard', async () => {
  await shop.mechanic.voice(Buffer.from('OggS, and silence'), { seconds: 2 });
  await shop.driver.quiet();
  expect(shop.mechanic.messages().at(-1)?.text).toMatch(/keyboard/);
});

it('says of a picture that is too big to fetch that it could not be kept, and loses nothing else', async () => {
  await shop.mechanic.photo(PIXEL, { caption: 'nearside footrest bent', size: 25 * 1024 * 1024 });
  await shop.driver.quiet();
  expect(shop.mechanic.last()?.text).toMatch(/left footrest: bent/);
  expect(await shop.say(shop.mechanic, 'show me the photos of the footrest')).toMatch(
    /too big|could not|couldn’t/,
  );
});

it('answers the same update twice with the same words, and records it once', async () => {
  const { updateId } = await shop.mechanic.say('gearbox sprocket hooked, new one, thirty quid');
  await shop.driver.quiet();
  const first = shop.mechanic.last()?.text;
  if (updateId === null) throw new Error('the bot was told of it');
  shop.rehearsal.redeliver(updateId);
  await shop.driver.quiet();
  expect(shop.mechanic.last()?.text).toBe(first);
  expect((await shop.say(shop.mechanic, 'strip list')).match(/gearbox sprocket/g)).toHaveLength(1);
});

it('gives a stranger one polite line, and a group its leave', async () => {
  const stranger = shop.rehearsal.person({ firstName: 'Nobody' });
  const answer = await shop.say(stranger, "what's blocking reassembly of the Ketterby?");
  expect(answer).not.toMatch(/Ketterby|Dale|Harl/);
  const group = stranger.inGroup({ title: 'Old irons' });
  await group.say('hello');
  await shop.driver.quiet();
  expect(group.messages().filter(({ by }) => by === 'bot').length).toBeLessThanOrEqual(1);
});

it('takes an invitation once, and not after it has run out', async () => {
  await shop.say(shop.mechanic, 'supplier Latecomer Spares, parts');
  const link = await shop.say(shop.mechanic, 'invite Latecomer Spares');
  const secret = /start=([A-Za-z0-9_-]+)/.exec(link)?.[1] ?? '';
  expect(JSON.stringify([...(await shop.record.texts('shop'))])).not.toContain(secret);
  await shop.driver.moveTo(shop.driver.now() + 8 * DAY);
  const late = shop.rehearsal.person({ firstName: 'Late' });
  await late.open(secret);
  await shop.driver.quiet();
  expect(late.last()?.text).toMatch(/run out|expired|too old|no longer/i);
});

it('does what an old button says where it still makes sense, and never for someone else', async () => {
  await shop.say(shop.mechanic, 'offside footrest bent, I’ll straighten it');
  await shop.driver.moveTo(shop.driver.now() + 30 * DAY);
  await shop.mechanic.press('Undo');
  await shop.driver.quiet();
  expect(shop.mechanic.last()?.text).toMatch(/Undone/);
  await plater.forge('no-such-token');
  await shop.driver.quiet();
  expect(plater.answers().at(-1)?.text).toMatch(/old|button/i);
});

it('passes on what a supplier writes when nothing of ours is with them', async () => {
  const answer = await shop.say(plater, 'that frame of yours is ready');
  expect(answer).toMatch(/has your message|passed on|Thank you/);
  expect(shop.mechanic.last()?.text).toMatch(/that frame of yours is ready/);
});

it('shows nobody what isn’t theirs', () => {
  const read = (person: Person): string =>
    person
      .messages()
      .filter(({ by }) => by === 'bot')
      .map(({ text }) => text)
      .join('\n');
  expect(read(plater)).not.toMatch(/Dale|£|quid|Latecomer/);
  expect(read(owner)).not.toMatch(/Harl|01632|Latecomer/);
});

/** The smallest PNG of one pixel: an 1 x 1 greyscale image by W3C, Portable Network Graphics (third edition). */
const PIXEL = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR42mNgAAAAAgABc3UBGAAAAABJRU5ErkJggg==',
  'base64',
);
