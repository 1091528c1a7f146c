import { describe, expect, it } from 'vitest';
import type { Kept } from '../../config/year/invariants/acknowledged.js';
import { keptOfStrangers } from '../../config/year/invariants/acknowledged.js';
import type { Act } from '../../config/year/journal.js';
import type { Recorded } from '../../src/record/types.js';

const asked = 'Hello, how much to restore my moped?';
const event = (type: string, over: Partial<Recorded> = {}): Recorded => ({
  ...{ id: 'shop.4', version: 4, type, schema: 1, data: {}, at: 1, by: 'guest-u7', command: 'u7-0' },
  ...over,
});
const of = (over: Partial<Kept>, text = asked): Kept => {
  const act: Act = { kind: 'act', at: 1, chat: 2009, update: 7, how: 'message', message: 3, text };
  return { act, answers: [], inbox: { state: 'new' }, left: [], ...over };
};
const nothing = { words: ['Mrs Wexcombe rang'], people: [], said: [] };

describe('what somebody unknown says', () => {
  it('leaves nothing', () => {
    expect(keptOfStrangers([of({})], nothing)).toEqual([]);
  });

  it.each<[string, Kept, Partial<Parameters<typeof keptOfStrangers>[1]>]>([
    ['an event', of({ left: [event('message-received')] }), {}],
    ['what came of it', of({ inbox: { state: 'done', result: null } }), {}],
    ['how it was understood', of({ inbox: { state: 'begun', reading: null } }), {}],
    ['its words', of({}), { words: [`A stranger: ${asked}`] }],
    ['their chat', of({}), { people: [{ id: 'owner-1', name: 'Bo', chatId: 2009 }] }],
    ['their chat, as a guest’s', of({}), { people: [{ id: 'guest-u7', name: 'Bo', address: '2009' }] }],
  ])('is seen where it leaves %s', (_what, kept, more) => {
    expect(keptOfStrangers([kept], { ...nothing, ...more })).toHaveLength(1);
  });

  it('may be in words that somebody known said too', () => {
    expect(keptOfStrangers([of({})], { ...nothing, words: [asked], said: [asked] })).toEqual([]);
  });
});

describe('a link that somebody unknown opens', () => {
  const taken = event('invitation-taken');
  const opened = (over: Partial<Kept>): string[] =>
    keptOfStrangers([of({ inbox: { state: 'done', result: null }, ...over }, '/start abc')], nothing);

  it('is kept, once, and is finished', () => {
    expect(opened({ left: [taken] })).toEqual([]);
    expect(opened({ left: [taken], inbox: { state: 'new' } })).toHaveLength(1);
    expect(opened({ left: [taken, { ...taken, id: 'shop.5' }] })).toHaveLength(1);
  });
});
