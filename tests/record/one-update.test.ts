import { describe, expect, it } from 'vitest';
import type { OneUpdate } from '../../src/record/one-update.js';
import { forOneUpdate } from '../../src/record/one-update.js';
import type { ShopRecord } from '../../src/record/types.js';
import { anAppend, event, useBench } from './support.js';

const bench = useBench();
const coming = { key: 'u1', chatId: 7 };

/** A record that counts what is asked of it. */
function counting(record: ShopRecord): { record: ShopRecord; asked: string[] } {
  const asked: string[] = [];
  const events: ShopRecord['events'] = (stream, after) => {
    asked.push(stream);
    return record.events(stream, after);
  };
  const glance: ShopRecord['glance'] = (glanced) => {
    asked.push(...glanced.streams.map(([stream]) => stream));
    return record.glance(glanced);
  };
  return { record: { ...record, events, glance }, asked };
}

const versionsOf = async (update: OneUpdate, after = 0): Promise<number[]> =>
  (await update.record.events('job-1', after)).events.map(({ version }) => version);

describe('the record for the time of one update', () => {
  it('reads a stream once, its own appends among what it reads', async () => {
    const { record, asked } = counting(bench.open());
    await record.append(anAppend({ commandId: 'c-1' }));
    const update = forOneUpdate(record, coming);
    expect(await versionsOf(update)).toEqual([1]);
    await update.record.append(anAppend({ commandId: 'c-2', expectedVersion: 1, events: [event('b')] }));
    expect(await versionsOf(update)).toEqual([1, 2]);
    expect(await versionsOf(update, 1)).toEqual([2]);
    expect(asked.filter((stream) => stream === 'job-1')).toHaveLength(1);
  });

  it('reads again after a conflict', async () => {
    const record = bench.open();
    const update = forOneUpdate(record, coming);
    expect(await versionsOf(update)).toEqual([]);
    await record.append(anAppend({ commandId: 'c-1' }));
    expect(await update.record.append(anAppend({ commandId: 'c-2' }))).toMatchObject({ outcome: 'conflict' });
    expect(await versionsOf(update)).toEqual([1]);
  });

  it('keeps how the update was understood with its first append, and its result when all else is kept', async () => {
    const record = bench.open();
    const update = forOneUpdate(record, coming);
    await update.record.inbox.begin('u1', { read: 'so' });
    expect(await record.inbox.find('u1')).toEqual({ state: 'new' });
    await update.record.append(anAppend({ commandId: 'c-1' }));
    expect(await record.inbox.find('u1')).toEqual({ state: 'begun', reading: { read: 'so' } });
    await update.record.context.set('p', { last: 1 });
    await update.record.inbox.finish('u1', { said: 'so' });
    await update.kept();
    expect(await record.inbox.find('u1')).toEqual({ state: 'done', result: { said: 'so' } });
    expect(await record.context.get('p')).toEqual({ last: 1 });
  });

  it('does not call an update done when something of it could not be kept', async () => {
    const record = bench.open();
    const failing = { ...record.context, set: () => Promise.reject(new Error('power cut')) };
    const update = forOneUpdate({ ...record, context: failing }, coming);
    await update.record.inbox.begin('u1', { read: 'so' });
    await update.record.context.set('p', { last: 1 });
    await update.record.inbox.finish('u1', { said: 'so' });
    await expect(update.kept()).rejects.toThrow('power cut');
    expect(await record.inbox.find('u1')).toEqual({ state: 'begun', reading: { read: 'so' } });
  });

  it('asks at once for what the last update of the chat asked for, and sees what came since', async () => {
    const plain = bench.open();
    await plain.append(anAppend({ commandId: 'c-1' }));
    const first = forOneUpdate(plain, coming);
    await versionsOf(first);
    await plain.append(anAppend({ commandId: 'c-2', expectedVersion: 1 }));
    const { record, asked } = counting(plain);
    const second = forOneUpdate(record, { ...coming, key: 'u2', likely: first.asked() });
    expect(asked).toContain('job-1');
    const before = asked.length;
    expect(await versionsOf(second, 1)).toEqual([2]);
    expect(asked).toHaveLength(before);
  });

  it('asks for no more as the chat goes on: what was not asked for lately is not remembered', async () => {
    const record = bench.open();
    let likely: ReturnType<OneUpdate['asked']> | undefined;
    for (let count = 1; count <= 40; count += 1) {
      await record.append(anAppend({ stream: `job-${count}`, commandId: `c-${count}` }));
      const update = forOneUpdate(record, { key: `u${count}`, chatId: 7, likely });
      await update.record.events('shop');
      await update.record.events(`job-${count}`);
      await update.record.context.get(`person-${count}`);
      likely = update.asked();
    }
    expect([...(likely?.streams.keys() ?? [])].slice(0, 4)).toEqual(['shop', 'job-40', 'job-39', 'job-38']);
    expect(likely?.streams.size).toBe(10);
    expect(likely?.benches).toHaveLength(9);
  });

  it('asks again from the version known where a stream was not asked for in between', async () => {
    const record = bench.open();
    await record.append(anAppend({ commandId: 'c-1' }));
    const first = forOneUpdate(record, coming);
    await versionsOf(first);
    await record.append(anAppend({ commandId: 'c-2', expectedVersion: 1 }));
    const between = forOneUpdate(record, { key: 'u2', chatId: 7, likely: first.asked() });
    await between.record.events('shop');
    const third = counting(record);
    const last = forOneUpdate(third.record, { key: 'u3', chatId: 7, likely: between.asked() });
    expect(await versionsOf(last, 1)).toEqual([2]);
    expect(third.asked.filter((stream) => stream === 'job-1')).toHaveLength(1);
  });

  it('sees at a glance what each question by itself would be answered', async () => {
    const record = bench.open();
    await record.append(anAppend({ commandId: 'c-1', events: [event('a'), event('b')] }));
    await record.putText('job-1', 't', 'changed');
    await record.people.put('p', { id: 'p', name: 'Edda', chatId: 7 });
    await record.people.put('q', { id: 'q', name: 'Ottilie' });
    await record.context.set('p', { bench: 'x', last: { item: 4 } });
    await record.inbox.begin('u1', { read: 'so' });
    const streams = [
      ['job-1', 0],
      ['job-1', 1],
      ['job-1', 2],
      ['job-1', 5],
      ['shop', 0],
      ['contact-none', 3],
    ] as const;
    const seen = await record.glance({ update: 'u1', chatId: 7, streams, benches: ['p', 'q'] });
    expect(seen.update).toEqual(await record.inbox.find('u1'));
    expect(seen.person).toEqual(await record.people.byChat(7));
    const byId = (people: readonly { id: string }[]) => [...people].sort((a, b) => a.id.localeCompare(b.id));
    expect(byId(seen.people)).toEqual(byId(await record.people.all()));
    expect(seen.benches).toEqual([await record.context.get('p'), {}]);
    for (const [index, [stream, after]] of streams.entries())
      expect(seen.streams[index]).toEqual({
        events: await record.events(stream, after),
        edition: await record.textEdition(stream),
      });
    expect(
      (await record.glance({ update: 'u2', chatId: 8, streams: [], benches: [] })).person,
    ).toBeUndefined();
  });

  it('sees people that it changed itself', async () => {
    const update = forOneUpdate(bench.open(), coming);
    expect(await update.record.people.byChat(7)).toBeUndefined();
    await update.record.people.put('p', { id: 'p', name: 'Edda', chatId: 7 });
    expect(await update.record.people.byChat(7)).toMatchObject({ name: 'Edda' });
    expect(await update.record.people.all()).toHaveLength(1);
  });
});
