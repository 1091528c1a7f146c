import type { Redis } from 'ioredis';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clockChanges } from '../../config/year/days.js';
import { tracesInRedis, tracesKept, tracesSent } from '../../config/year/invariants/forgotten.js';
import { toldOutsiders } from '../../config/year/invariants/outsiders.js';
import { answeredOfOthers } from '../../config/year/invariants/own-answers.js';
import { notPutRight } from '../../config/year/invariants/put-right.js';
import type { Happened } from '../../config/year/journal.js';
import { roundUpAmiss } from '../../config/year/invariants/round-ups.js';
import { found, opened, the } from '../job/talk.js';
import { given } from '../support/given.js';
import type { TestRedis } from '../support/redis.js';
import { startTestRedis } from '../support/redis.js';
import { message } from './seen.js';

const seconds = (time: string): number => Date.parse(time) / 1000;

describe('an owner’s answer', () => {
  const question = {
    ...{ who: 'Mrs Wexcombe', title: 'Garwick', message: message('2026-03-04T20:40:00Z', '').messageId },
    ...{ own: ['magneto'], said: ['magneto worn, send it for a rewind, 61 quid', 'silencer, 40 quid'] },
  };
  const known = { parts: ['magneto', 'petrol tank'], titles: ['Garwick', 'Ashdale'] };
  const answered = (text: string): string[] => {
    const answer = message('2026-03-04T20:40:00Z', text);
    return answeredOfOthers({ ...question, message: answer.messageId - 1 }, [answer], known);
  };

  it('may speak of their own machine, its parts and its sums', () => {
    expect(answered('Garwick\nMagneto: yes, up to £61\nAgreed in all: £101.')).toEqual([]);
  });

  it.each([
    ['another machine', 'Garwick and Ashdale'],
    ['a part that is another’s', 'Garwick\nPetrol tank: away for painting'],
    ['a sum that is another’s', 'Garwick\nMagneto: yes, up to £62'],
    ['more than all of theirs', 'Garwick\nAgreed in all: £1,000.'],
  ])('is seen where it speaks of %s', (_what, text) => {
    expect(answered(text)).toHaveLength(1);
  });

  it('is missed where there is none', () => {
    expect(answeredOfOthers(question, [], known)).toHaveLength(1);
  });
});

describe('somebody forgotten', () => {
  const gone = [{ traces: ['Wexcombe', '01632 960555'], at: seconds('2026-03-04T09:40:00Z') }];
  type People = Awaited<ReturnType<Parameters<typeof tracesKept>[0]['people']['all']>>;
  const record = (words: string, people: People = []) => ({
    streams: () => Promise.resolve(['job-1' as const]),
    texts: () => Promise.resolve(new Map([['t', words]])),
    people: { all: () => Promise.resolve(people) } as Parameters<typeof tracesKept>[0]['people'],
  });

  it('is seen in words that are kept, by name or number', async () => {
    expect(await tracesKept(record('a former contact rang'), gone)).toEqual([]);
    expect(await tracesKept(record('Wexcombe rang from 01632 960555'), gone)).toHaveLength(2);
  });

  it('is seen among the people, by name or number', async () => {
    const [dale, theirs]: [People[number], People[number]] = [
      { id: 'owner-1', name: 'Mrs Dale' },
      { id: 'owner-2', name: 'Mrs Wexcombe', phone: '01632 960555' },
    ];
    expect(await tracesKept(record('', [dale]), gone)).toEqual([]);
    expect(await tracesKept(record('', [dale, theirs]), gone)).toHaveLength(2);
  });

  describe('in Redis', () => {
    let redis: TestRedis;
    beforeAll(async () => {
      redis = await startTestRedis();
    });
    afterAll(() => redis.stop());

    it.each<[string, (client: Redis, text: string) => Promise<unknown>]>([
      ['a string', (client, text) => client.set('k', text)],
      ['a value of a hash', (client, text) => client.hset('k', 'field', text)],
      ['a field of a hash', (client, text) => client.hset('k', text, 'value')],
      ['a stream', (client, text) => client.xadd('k', '*', 'data', text)],
      ['a list', (client, text) => client.rpush('k', 'other', text)],
      ['a set', (client, text) => client.sadd('k', 'other', text)],
      ['a sorted set', (client, text) => client.zadd('k', 1, 'other', 2, text)],
      ['a key’s own name', (client, text) => client.set(`k:${text}`, 'value')],
    ])('is seen in %s', async (_what, put) => {
      const client = redis.connect();
      await client.flushall();
      await put(client, JSON.stringify({ said: 'a former contact rang' }));
      expect(await tracesInRedis(client, gone)).toEqual([]);
      await client.flushall();
      await put(client, JSON.stringify({ said: 'Wexcombe rang' }));
      expect(await tracesInRedis(client, gone)).toEqual([expect.stringContaining('Wexcombe')]);
    });
  });

  it('is seen in what is sent after the day, and not before', () => {
    const sent = (time: string): string[] => tracesSent('Hettie', [message(time, 'Ring Wexcombe')], gone);
    expect(sent('2026-03-03T09:40:00Z')).toEqual([]);
    expect(sent('2026-03-05T07:45:00Z')).toHaveLength(1);
  });
});

describe('somebody nobody knows', () => {
  const wrote: Happened = {
    ...{ kind: 'act', at: 5_000, chat: 9, update: 1, how: 'message', message: 1, text: 'Hello?' },
  };
  const written = (at: number, text: string): Happened => ({
    kind: 'written',
    at,
    chat: 9,
    message: at,
    text,
  });
  const told = (...happened: Happened[]): string[] =>
    toldOutsiders({ who: 'Bo', chat: 9, from: 4_000 }, happened, ['Garwick']);

  it('may be answered, but not written to nor told a name', () => {
    expect(told(wrote, written(6_000, 'A workshop’s own line'))).toEqual([]);
    expect(told(wrote, written(6_000, 'The Garwick is here'))).toHaveLength(1);
    expect(told(wrote, { kind: 'woken', at: 5_500 }, written(6_000, 'Good morning'))).toHaveLength(1);
    expect(told(written(3_000, 'Your Garwick is ready'))).toEqual([]);
  });

  it('is answered once, or once more where the bot died', () => {
    const answers = [written(6_000, 'A workshop’s own line'), written(7_000, 'A workshop’s own line')];
    expect(told(wrote, ...answers)).toHaveLength(1);
    const died: Happened = { kind: 'killed', at: 5_500, what: 'bot', when: 'after' };
    expect(told(wrote, died, ...answers)).toEqual([]);
  });
});

it('what was put right stands once, on the side that was meant', () => {
  const rear = given(opened({ passed: ['stripped'] }), found(the('brake plate', 'rear'))).state;
  expect(notPutRight(rear, { part: 'brake plate', meant: 'rear', not: 'front' })).toEqual([]);
  expect(notPutRight(rear, { part: 'brake plate', meant: 'front', not: 'rear' })).toHaveLength(1);
});

// Summer time 2026 begins on 29 March and ends on 25 October (Summer Time Order 2002: last Sundays of March and October).
it('a round-up goes by the shop’s clock on both sides of a change, on open days', () => {
  expect(clockChanges('2026-01-05', 365)).toEqual(['2026-03-29', '2026-10-25']);
  const amiss = (time: string, closed: { from: string; to: string }[] = []): string[] =>
    roundUpAmiss('Hettie', [Date.parse(time)], closed);
  expect(amiss('2026-03-27T07:45:00Z')).toEqual([]);
  expect(amiss('2026-03-30T06:45:00Z')).toEqual([]);
  expect(amiss('2026-03-30T07:45:00Z')).toHaveLength(1);
  expect(amiss('2026-03-28T07:45:00Z')).toHaveLength(1);
  expect(amiss('2026-03-27T07:45:00Z', [{ from: '2026-03-23', to: '2026-03-27' }])).toHaveLength(1);
});
