import { expect, it } from 'vitest';
import { makeKeys } from '../../src/record/keys.js';
import type { ShopRecord } from '../../src/record/types.js';
import type { Redis } from 'ioredis';
import { event } from './support.js';

/** What the parts of the record that need only strings, hashes, sorted sets and streams must do, on any store. */
export function sidesConformance(open: () => { record: ShopRecord; redis: Redis }): void {
  it('people: keeps, finds by chat, changes and forgets', async () => {
    const { record, redis } = open();
    const { people, context } = record;
    const chats = () => redis.hgetall(makeKeys(record.shop).peopleChats);
    const ann = {
      id: 'p-1',
      name: 'Ann Otter',
      also: ['Annie'],
      phone: '0999 1',
      chatId: 77,
      language: 'en',
    };
    await people.put('p-1', ann);
    await people.put('p-2', { id: 'p-2', name: 'Bob Vole', email: 'bob@example.org', address: '1 Lane' });
    expect(await people.get('p-1')).toEqual(ann);
    expect(await people.get('p-3')).toBeUndefined();
    expect((await people.all()).map(({ id }) => id).sort()).toEqual(['p-1', 'p-2']);
    expect(await people.byChat(77)).toEqual(ann);
    await people.put('p-1', { ...ann, chatId: -78 });
    expect([await people.byChat(77), (await people.byChat(-78))?.id]).toEqual([undefined, 'p-1']);
    expect(await chats()).toEqual({ '-78': 'p-1' });
    await context.set('p-1', { bench: 'job-1' });
    expect(await people.forget('p-1')).toBe(true);
    expect(await people.forget('p-1')).toBe(false);
    expect([await people.get('p-1'), await people.byChat(-78)]).toEqual([undefined, undefined]);
    expect([await context.get('p-1'), await chats()]).toEqual([{}, {}]);
    expect(await people.all()).toHaveLength(1);
  });

  it('people: a chat that passes to another person stays theirs', async () => {
    const { people } = open().record;
    await people.put('p-1', { id: 'p-1', name: 'A', chatId: 5 });
    await people.put('p-2', { id: 'p-2', name: 'B', chatId: 5 });
    await people.put('p-1', { id: 'p-1', name: 'A' });
    expect((await people.byChat(5))?.id).toBe('p-2');
    await people.forget('p-1');
    expect((await people.byChat(5))?.id).toBe('p-2');
  });

  it('people: takes no data that is not a person’s', async () => {
    const { people } = open().record;
    await expect(people.put('p-1', { id: 'p-1', name: '' })).rejects.toThrow('name');
    await expect(people.put('p-1', { id: 'p-2', name: 'A' })).rejects.toThrow('p-2');
    const more = { id: 'p-1', name: 'A', shoeSize: 9 };
    await expect(people.put('p-1', more)).rejects.toThrow('shoeSize');
    expect(await people.all()).toEqual([]);
  });

  it('context: patches by name and drops what is set to nothing', async () => {
    const { context } = open().record;
    await context.set('p-1', { bench: 'job-1', item: 12, question: { about: ['due'] } });
    await context.set('p-1', { item: 13, question: null });
    expect(await context.get('p-1')).toEqual({ bench: 'job-1', item: 13 });
    await context.set('p-1', { bench: undefined, item: null });
    expect(await context.get('p-1')).toEqual({});
    expect(await context.get('p-2')).toEqual({});
  });

  it('inbox: new, begun with the first reading, done with its result', async () => {
    const { inbox } = open().record;
    expect(await inbox.find('bot:1')).toEqual({ state: 'new' });
    await inbox.begin('bot:1', { act: 'finding' });
    await inbox.begin('bot:1', { act: 'read again, otherwise' });
    expect(await inbox.find('bot:1')).toEqual({ state: 'begun', reading: { act: 'finding' } });
    await inbox.finish('bot:1', { reply: 'Logged.' });
    await inbox.begin('bot:1', { act: 'late' });
    expect(await inbox.find('bot:1')).toEqual({ state: 'done', result: { reply: 'Logged.' } });
    expect(await inbox.find('bot:2')).toEqual({ state: 'new' });
  });

  it('inbox: counts failed tries and keeps a poison update once, raw', async () => {
    const { inbox } = open().record;
    expect([await inbox.failed('bot:1'), await inbox.failed('bot:1'), await inbox.failed('bot:2')]).toEqual([
      1, 2, 1,
    ]);
    await inbox.finish('bot:1', null);
    expect(await inbox.failed('bot:1')).toBe(1);
    await inbox.poison('bot:1', { text: '\u0000💥' });
    await inbox.poison('bot:2', 'other');
    await inbox.poison('bot:1', { text: '\u0000💥' });
    const kept = (await inbox.poisoned()).map(({ key, raw }) => ({ key, raw }));
    expect(kept).toEqual([
      { key: 'bot:1', raw: { text: '\u0000💥' } },
      { key: 'bot:2', raw: 'other' },
    ]);
  });

  it('buttons and chat messages: kept by token, and by chat and message', async () => {
    const { buttons, chatMessages } = open().record;
    await buttons.put('tok', { undo: 'm-1' });
    expect([await buttons.get('tok'), await buttons.get('other')]).toEqual([{ undo: 'm-1' }, undefined]);
    await chatMessages.put(-100, 7, { items: [12] });
    expect(await chatMessages.get(-100, 7)).toEqual({ items: [12] });
    expect([await chatMessages.get(-100, 8), await chatMessages.get(100, 7)]).toEqual([undefined, undefined]);
  });

  it('lifetimes: inbox 30 days, buttons 120 or as asked, chat messages 400', async () => {
    const { record, redis } = open();
    const keys = makeKeys(record.shop);
    await record.inbox.begin('u', 1);
    await record.inbox.failed('u');
    await record.buttons.put('a', 1);
    await record.buttons.put('b', 1, 2);
    await record.chatMessages.put(1, 2, 3);
    const named = [
      keys.inbox('u'),
      keys.inboxTries('u'),
      keys.button('a'),
      keys.button('b'),
      keys.chatMessage(1, 2),
    ];
    const days = await Promise.all(named.map(async (key) => (await redis.pttl(key)) / 86_400_000));
    expect(days.map((value) => Math.round(value))).toEqual([30, 30, 120, 2, 400]);
    await record.inbox.finish('u', 1);
    expect(Math.round((await redis.pttl(keys.inbox('u'))) / 86_400_000)).toBe(30);
  });

  it('due: by time, earliest first', async () => {
    const { due } = open().record;
    expect(await due.next()).toBeNull();
    await due.set('job-1', 300);
    await due.set('shop', 100);
    await due.set('contact-1', 200);
    expect(await due.next()).toBe(100);
    const upTo200 = [
      { stream: 'shop', at: 100 },
      { stream: 'contact-1', at: 200 },
    ];
    expect(await due.until(200)).toEqual(upTo200);
    expect(await due.until(99)).toEqual([]);
    await due.set('shop', null);
    await due.set('job-1', 50);
    expect((await due.until(1000)).map(({ stream }) => stream)).toEqual(['job-1', 'contact-1']);
  });

  it('rehearsal clock: unset, set, moved on, unset', async () => {
    const { clock } = open().record;
    expect(await clock.get()).toBeNull();
    await clock.set(1_700_000_000_000);
    expect(await clock.get()).toBe(1_700_000_000_000);
    await clock.set(null);
    expect(await clock.get()).toBeNull();
  });

  it('streams: reads what stands in a stream, whole or from a version on, and its words', async () => {
    const { record, redis } = open();
    const keys = makeKeys(record.shop);
    for (const version of [1, 2, 3]) {
      const body = { ...event(`said ${version}`), at: version, by: 'p', command: 'c' };
      await redis.xadd(keys.events('job-1'), `${version}-0`, 'event', JSON.stringify(body));
    }
    await redis.sadd(keys.streams, 'job-1');
    await record.putText('job-1', 't', 'words');
    const whole = await record.load('job-1');
    expect([whole.version, whole.texts]).toEqual([3, new Map([['t', 'words']])]);
    expect(whole.events.map(({ data }) => data)).toEqual(['said 1', 'said 2', 'said 3']);
    const later = await record.load('job-1', 2);
    expect(later.events).toMatchObject([{ id: 'job-1.3', version: 3, at: 3, by: 'p', command: 'c' }]);
    expect(await record.events('job-1', 3)).toEqual({ version: 3, events: [] });
    expect(await record.events('job-9')).toEqual({ version: 0, events: [] });
    expect(await record.streams()).toEqual(['job-1']);
    await record.forgetTexts('job-1', ['t', 'never there']);
    expect(await record.texts('job-1')).toEqual(new Map());
  });
}
