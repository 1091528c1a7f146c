import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Outside } from '../../src/desk/outside.js';
import { textOf } from '../../src/wording/answer.js';
import type { DeskBench } from '../support/desk.js';
import { DESK_START, openDeskBench } from '../support/desk.js';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** What lies around, as a test sets it. */
type Scene = { waits: number | null; woke: number | null; free: number; breaks: string | null };
const scene: Scene = { waits: null, woke: 60_000, free: 5e9, breaks: null };
const written: string[] = [];
const outside: Outside = {
  longestWaitMs: () => Promise.resolve(scene.waits),
  wokeAgoMs: () => Promise.resolve(scene.woke),
  disk: () => Promise.resolve({ freeBytes: scene.free, wholeBytes: 40e9 }),
  redis: () =>
    Promise.resolve({ version: '7.2.4', appendOnly: true, fsync: 'always', evicts: false, warnings: [] }),
  backUp: (day) => {
    if (scene.breaks !== null) return Promise.reject(Object.assign(new Error('no'), { code: scene.breaks }));
    written.push(day);
    return Promise.resolve({ name: `of-${day}.tar.gz`, bytes: 3_200_000, events: 10, files: 2 });
  },
};

let bench: DeskBench;
beforeAll(async () => {
  bench = await openDeskBench({ outside });
});
afterAll(() => bench.stop());

const asked = async (after: number): Promise<string> => textOf(await bench.say('are you well?', after));

/** What the mechanic has been told or is about to be, by the ids of the messages. */
async function intended(): Promise<string[]> {
  const { events } = await bench.record.events('contact-mechanic-1');
  return events.flatMap(({ type, data }) =>
    type === 'message-intended' ? [(data as { id: string }).id] : [],
  );
}

describe('the daily back-up', () => {
  it('is kept once a shop day, at the first wake of it by the shop’s own clock', async () => {
    expect(await asked(0)).toMatch(/1 thing wants seeing to:\n• No back-up was kept yet/);
    expect(await bench.desk.keepBackUp(DESK_START)).toBe('kept');
    expect(await bench.desk.keepBackUp(DESK_START + 14 * HOUR)).toBe('not-due');
    expect(await bench.desk.keepBackUp(DESK_START + 15 * HOUR)).toBe('kept');
    expect(written).toEqual(['2026-03-02', '2026-03-03']);
  });

  it('that fails is told to the mechanics once, tried again each hour, and told again only after one was kept', async () => {
    scene.breaks = 'ENOSPC';
    const third = DESK_START + 2 * DAY;
    expect(await bench.desk.keepBackUp(third)).toBe('failed');
    expect(await bench.desk.keepBackUp(third + HOUR / 2)).toBe('not-due');
    expect(await bench.desk.keepBackUp(third + HOUR)).toBe('failed');
    expect(await bench.desk.keepBackUp(third + DAY)).toBe('failed');
    expect(await intended()).toEqual(['back-up-failed-2026-03-04-mechanic-1']);
    expect(await asked(2 * DAY)).toMatch(/The one of 5 March failed: there is no room left on the disk/);
    const prepared = await bench.desk.prepareSend(
      'mechanic-1',
      'back-up-failed-2026-03-04-mechanic-1',
      third,
    );
    expect(prepared).toMatchObject({ outcome: 'send' });
    if (prepared.outcome === 'send') {
      expect(textOf(prepared.answer)).toMatch(/^Today’s back-up could not be written: there is no room left/);
      await bench.desk.sent(
        'mechanic-1',
        'back-up-failed-2026-03-04-mechanic-1',
        { ...prepared, chatMessage: 1 },
        third,
      );
    }

    scene.breaks = null;
    expect(await bench.desk.keepBackUp(third + DAY + HOUR)).toBe('kept');
    scene.breaks = 'EACCES';
    expect(await bench.desk.keepBackUp(third + 2 * DAY)).toBe('failed');
    expect(await intended()).toHaveLength(2);
    scene.breaks = null;
    expect(await bench.desk.keepBackUp(third + 2 * DAY + HOUR)).toBe('kept');
  });
});

describe('are you well?', () => {
  it('says so where all is, with each thing looked at', async () => {
    await bench.record.outbox.ack(await bench.record.outbox.read('test', { count: 100, blockMs: 1 }));
    for (const id of await intended()) {
      await bench.desk.failed('mechanic-1', id, '403', DESK_START);
    }
    const text = await asked(12 * DAY);
    expect(text).toMatch(/^1 thing wants seeing to/);
    const later = DESK_START + 12 * DAY;
    await bench.desk.keepBackUp(later);
    const lines = (await asked(12 * DAY + HOUR)).split('\n');
    expect(lines[0]).toBe('All is well.');
    expect(lines).toContain('• I last looked at what is due 1 minute ago.');
    expect(lines).toContain(
      '• Redis 7.2.4 keeps the record append-only, flushes every write to the disk and throws nothing away.',
    );
    expect(lines).toContain('• The last back-up is of 14 March, 09:00: of-2026-03-14.tar.gz, 3.2 MB.');
    expect(lines).toContain('• No message is failing.');
  });

  it('puts first what wants seeing to', async () => {
    Object.assign(scene, { waits: 3 * HOUR, woke: 40 * 60_000, free: 2e8 });
    await bench.say('new job: Ketterby 500 single, owner Mrs Dale', 12 * DAY);
    await bench.say('owner Mrs Dale, 01632 960123', 12 * DAY);
    const dale = (await bench.record.people.all()).find(({ name }) => name === 'Mrs Dale');
    if (!dale) throw new Error('Mrs Dale was added');
    await bench.record.people.put(dale.id, { ...dale, chatId: 77 });
    await bench.say('front rim rusty, send it for chrome, 90 quid', 12 * DAY);
    await bench.say('ask the owner', 12 * DAY);
    await bench.desk.wake(DESK_START + 12 * DAY + 2 * HOUR);
    const { events } = await bench.record.events(`contact-${dale.id}`);
    const message = (events[0]?.data as { id: string }).id;
    const prepared = await bench.desk.prepareSend(dale.id, message, DESK_START + 14 * DAY);
    if (prepared.outcome !== 'send') throw new Error('there was something to send');
    await bench.desk.postponed(dale.id, message, 'turned-away', prepared.attempt, DESK_START + 14 * DAY);
    const lines = (await asked(12 * DAY + 3 * HOUR)).split('\n');
    expect(lines[0]).toBe('4 things want seeing to:');
    expect(lines.slice(1, 5)).toEqual([
      '• Something has been waiting to be sent or fetched for 3 hours.',
      '• I last looked at what is due 40 minutes ago.',
      expect.stringMatching(
        /^• The message to Mrs Dale of \d+ March has not gone yet, after 1 try\. I go on trying\.$/,
      ),
      expect.stringMatching(/^• The disk with the pictures has 200 MB of 40 GB free/),
    ]);
  });

  it.each([
    'Are you well?',
    'are you ok',
    'How are you doing?',
    'hello Benchhand, is everything working?',
    'health',
  ])('is heard in %j', async (words) => {
    expect(textOf(await bench.say(words))).toMatch(/• Redis 7\.2\.4/);
  });

  it('is not heard in talk of the machine', async () => {
    for (const words of [
      'are you sure the rims are ok?',
      'gearbox well worn',
      'is everything back from the plater?',
    ])
      expect(textOf(await bench.say(words))).not.toMatch(/• Redis/);
  });
});
