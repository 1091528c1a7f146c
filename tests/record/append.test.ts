import { describe, expect, it } from 'vitest';
import { makeKeys } from '../../src/record/keys.js';
import { anAppend, event, useBench } from './support.js';

const bench = useBench();
const effect = (id: string) => ({ id, queue: 'send', data: { message: id } }) as const;

describe('an append', () => {
  it('gives its events versions from 1, ids, and everything that was said of them', async () => {
    const record = bench.open();
    const append = anAppend({ commandId: 'c-1', message: 'm-9', events: [event('a'), event({ b: 2 })] });
    const appended = await record.append(append);
    const common = { at: append.at, by: 'person-1', message: 'm-9', command: 'c-1', type: 'said', schema: 1 };
    const events = [
      { ...common, id: 'job-1.1', version: 1, data: 'a' },
      { ...common, id: 'job-1.2', version: 2, data: { b: 2 } },
    ];
    expect(appended).toEqual({ outcome: 'appended', version: 2, events });
    expect((await record.load('job-1')).events).toEqual(events);
    expect((await record.load('job-1', 1)).events).toEqual(events.slice(1));
    expect(await record.streams()).toEqual(['job-1']);
  });

  it('is told seen when its command was appended before, whatever its expected version, and writes nothing', async () => {
    const record = bench.open();
    await record.append(anAppend({ commandId: 'c-1' }));
    await record.append(anAppend({ commandId: 'c-2', expectedVersion: 1 }));
    const again = anAppend({ commandId: 'c-1', texts: { t: 'x' }, effects: [effect('e')], dueAt: 5 });
    expect(await record.append(again)).toEqual({ outcome: 'seen', version: 1 });
    expect(await record.append({ ...again, expectedVersion: 2 })).toEqual({ outcome: 'seen', version: 1 });
    const { version, texts } = await record.load('job-1');
    expect([version, texts.size, await record.outbox.size(), await record.due.next()]).toEqual([
      2,
      0,
      0,
      null,
    ]);
  });

  it('is told conflict, with the version to go on from, when the stream has moved on or is not there yet', async () => {
    const record = bench.open();
    await record.append(anAppend());
    const late = anAppend({ commandId: 'late', texts: { t: 'x' }, effects: [effect('e')], dueAt: 5 });
    expect(await record.append(late)).toEqual({ outcome: 'conflict', version: 1 });
    expect(await record.append({ ...late, expectedVersion: 2 })).toEqual({ outcome: 'conflict', version: 1 });
    const { version, texts } = await record.load('job-1');
    expect([version, texts.size, await record.outbox.size(), await record.due.next()]).toEqual([
      1,
      0,
      0,
      null,
    ]);
    expect(await record.seen('job-1', 'late')).toBeNull();
    expect(await record.append({ ...late, expectedVersion: 1 })).toMatchObject({
      outcome: 'appended',
      version: 2,
    });
    expect(await record.seen('job-1', 'late')).toBe(2);
  });

  it('may have no events: effects and the due time are written, the version stays, the command is seen', async () => {
    const record = bench.open();
    await record.append(anAppend());
    const quiet = anAppend({
      commandId: 'q',
      expectedVersion: 1,
      events: [],
      effects: [effect('e')],
      dueAt: 7,
    });
    expect(await record.append(quiet)).toEqual({ outcome: 'appended', version: 1, events: [] });
    expect(await record.append(quiet)).toEqual({ outcome: 'seen', version: 1 });
    expect([await record.outbox.size(), await record.due.next()]).toEqual([1, 7]);
    await record.append(anAppend({ expectedVersion: 1, events: [], dueAt: null }));
    expect(await record.due.next()).toBeNull();
  });

  it('leaves the due time alone unless it is given one', async () => {
    const record = bench.open();
    await record.append(anAppend({ dueAt: 7 }));
    await record.append(anAppend({ expectedVersion: 1 }));
    expect(await record.due.next()).toBe(7);
  });

  it('adds an effect to the outbox once, even after it was handed on', async () => {
    const record = bench.open();
    await record.append(anAppend({ effects: [effect('e-1')] }));
    await record.outbox.ack(await record.outbox.read('relay-1', { count: 10, blockMs: 1 }));
    await record.append(anAppend({ expectedVersion: 1, effects: [effect('e-1'), effect('e-2')] }));
    const left = await record.outbox.read('relay-1', { count: 10, blockMs: 1 });
    expect(left.map((entry) => entry.effect)).toEqual([effect('e-2')]);
  });

  it('keeps words beside the stream, and forgets them without touching the events', async () => {
    const record = bench.open();
    await record.append(anAppend({ texts: { 't-1': 'fork tube pitted', 't-2': 'héé 🛠' } }));
    await record.putText('job-1', 't-3', 'said later');
    expect([...(await record.texts('job-1'))]).toEqual([
      ['t-1', 'fork tube pitted'],
      ['t-2', 'héé 🛠'],
      ['t-3', 'said later'],
    ]);
    await record.forgetTexts('job-1', ['t-1', 't-2']);
    const { texts, version } = await record.load('job-1');
    expect([[...texts.keys()], version]).toEqual([['t-3'], 1]);
  });

  it('keeps streams and their commands apart', async () => {
    const record = bench.open();
    for (const stream of ['shop', 'job-1', 'job-2', 'contact-7'] as const) {
      expect(await record.append(anAppend({ stream, commandId: 'same' }))).toMatchObject({ version: 1 });
    }
    expect(await record.streams()).toEqual(['contact-7', 'job-1', 'job-2', 'shop']);
    expect((await bench.open().load('job-1')).version).toBe(0);
  });

  it.each([
    ['a stream that is none', { stream: 'job-{1}' as 'job-1' }, /Not a stream/],
    ['a negative version', { expectedVersion: -1 }, /expectedVersion/],
    ['no command', { commandId: '' }, /commandId/],
    ['an event without data', { events: [event(undefined)] }, /no data/],
    ['a due time that is no number', { dueAt: Number.NaN }, /dueAt/],
  ])('throws on %s', async (_what, over, sentence) => {
    await expect(bench.open().append(anAppend(over))).rejects.toThrow(sentence);
  });

  it.each(['texts', 'streams', 'outbox', 'effectIds', 'due'] as const)(
    'writes nothing at all when the key for %s is of the wrong type',
    async (name) => {
      const record = bench.open();
      const keys = makeKeys(record.shop);
      const wrong = name === 'texts' ? keys.texts('job-1') : keys[name];
      await bench.redis.set(wrong, 'not what it should be');
      const append = anAppend({ texts: { t: 'x' }, effects: [effect('e')], dueAt: 5 });
      await expect(record.append(append)).rejects.toThrow('WRONGTYPE');
      expect(await bench.redis.keys(`${keys.prefix}*`)).toEqual([wrong]);
    },
  );
});

describe('loading', () => {
  it('brings events of an older schema up to date', async () => {
    const record = bench.open();
    await record.append(
      anAppend({ events: [event({ thou: 2 }, 'measured'), event({ mm: 1 }, 'measured', 2)] }),
    );
    const modern = bench.open({
      shop: record.shop,
      upcast: (old) => {
        if (old.type !== 'measured' || old.schema > 1) return old;
        return { ...old, schema: 2, data: { mm: (old.data as { thou: number }).thou * 0.0254 } };
      },
    });
    const { events } = await modern.load('job-1');
    expect(events.map(({ schema, data }) => ({ schema, data }))).toEqual([
      { schema: 2, data: { mm: 0.0508 } },
      { schema: 2, data: { mm: 1 } },
    ]);
    expect((await record.load('job-1')).events[0]).toMatchObject({ schema: 1, data: { thou: 2 } });
  });

  it('says from the version that a stream is shorter than the reader thought', async () => {
    const record = bench.open();
    await record.append(anAppend());
    expect(await record.events('job-1', 5)).toEqual({ version: 1, events: [] });
    expect(await record.events('job-2', 5)).toEqual({ version: 0, events: [] });
  });
});

it('refuses a connection with a key prefix', () => {
  const prefixed = bench.redis.duplicate({ keyPrefix: 'x:', lazyConnect: true });
  expect(() => bench.open({ redis: prefixed })).toThrow('keyPrefix');
});
