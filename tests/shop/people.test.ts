import { describe, expect, it } from 'vitest';
import type { ShopCommand } from '../../src/shop/decide.js';
import type { Role } from '../../src/shop/events.js';
import { peopleWith } from '../../src/shop/state.js';
import { shop } from './talk.js';

const add = (
  person: string,
  role: Role,
  more: Partial<Extract<ShopCommand, { type: 'add-person' }>> = {},
): ShopCommand => ({
  ...{ type: 'add-person', person, role, processes: [], trades: [] },
  ...more,
});
const job = (id: string, title: string): ShopCommand => ({
  type: 'register-job',
  job: id,
  title,
  owner: null,
});
const invite: ShopCommand = {
  type: 'invite',
  invitation: 'i1',
  person: 'brook',
  role: 'supplier',
  expiresAt: 1000,
};
const take = (now = 1): ShopCommand => ({ type: 'take-invitation', invitation: 'i1', guest: 'g1', now });
const settle = (welcome: boolean): ShopCommand => ({ type: 'settle-guest', invitation: 'i1', welcome });

describe('people', () => {
  it('are added once for each part they have in the shop', () => {
    shop().when(add('brook', 'supplier')).then('person-added');
    shop(add('brook', 'supplier')).when(add('brook', 'supplier')).then();
    const both = shop(add('brook', 'supplier')).when(add('brook', 'owner')).then('person-added');
    expect(both.people['brook']?.roles).toEqual(['supplier', 'owner']);
  });

  it('are known by more trades and processes as these are said', () => {
    const chrome = shop()
      .when(add('brook', 'supplier', { processes: ['chrome'], trades: ['plater'] }))
      .then('person-added', 'supplier-described');
    expect(chrome.people['brook']).toMatchObject({ processes: ['chrome'], trades: ['plater'] });
    const again = shop(add('brook', 'supplier', { processes: ['chrome'] })).when(
      add('brook', 'supplier', { processes: ['chrome', 'nickel'] }),
    );
    expect(again.then('supplier-described').people['brook']?.processes).toEqual(['chrome', 'nickel']);
  });

  it('who are forgotten are counted no more, and nothing more is done with them', () => {
    const gone = shop(add('brook', 'supplier'), { type: 'forget', person: 'brook' });
    expect(peopleWith(gone.state, 'supplier')).toEqual([]);
    const calendar = { days: [1], hours: { from: '09:00', to: '17:00' }, closed: [], region: null };
    const more: ShopCommand[] = [
      invite,
      { type: 'forget', person: 'brook' },
      { type: 'unlink', person: 'brook' },
      { type: 'set-calendar', of: 'brook', calendar },
    ];
    for (const command of more) gone.when(command).refusedFor({ why: 'no-such-person' });
    for (const command of more) shop().when(command).refusedFor({ why: 'no-such-person' });
  });
});

describe('jobs', () => {
  it('have titles of their own while they are in the shop', () => {
    const open = shop(job('j1', 'Larkspur'));
    open.when(job('j2', 'LARKSPUR')).refusedFor({ why: 'title-taken', title: 'LARKSPUR' });
    const closed = shop(job('j1', 'Larkspur'), { type: 'close-job', job: 'j1' });
    closed.when(job('j2', 'Larkspur')).then('job-registered');
  });

  it('are closed, reopened and given an owner where they are known', () => {
    const known = shop(job('j1', 'Larkspur'), { type: 'close-job', job: 'j1' });
    expect(known.when({ type: 'reopen-job', job: 'j1' }).then('job-reopened').jobs[0]?.open).toBe(true);
    expect(
      known.when({ type: 'name-job-owner', job: 'j1', owner: 'o' }).then('job-owner-named').jobs[0]?.owner,
    ).toBe('o');
    for (const type of ['close-job', 'reopen-job'] as const)
      known.when({ type, job: 'j2' }).refusedFor({ why: 'no-such-job' });
    known.when({ type: 'name-job-owner', job: 'j2', owner: 'o' }).refusedFor({ why: 'no-such-job' });
  });
});

describe('an invitation', () => {
  const invited = [add('brook', 'supplier'), invite];

  it('is taken once, before it runs out, and settled once', () => {
    shop(...invited)
      .when(take())
      .then('invitation-taken');
    shop(...invited, take())
      .when(take())
      .refusedFor({ why: 'invitation-used' });
    shop(...invited)
      .when(take(999))
      .then('invitation-taken');
    shop(...invited)
      .when(take(1000))
      .refusedFor({ why: 'invitation-expired' });
    expect(
      shop(...invited, take())
        .when(settle(true))
        .then('guest-confirmed').invitations['i1']?.status,
    ).toBe('confirmed');
    expect(
      shop(...invited, take())
        .when(settle(false))
        .then('guest-turned-away').invitations['i1']?.status,
    ).toBe('turned-away');
    for (const first of [true, false]) {
      for (const second of [true, false]) {
        shop(...invited, take(), settle(first))
          .when(settle(second))
          .refusedFor({ why: 'no-such-invitation' });
      }
      shop(...invited, take(), settle(first))
        .when(take())
        .refusedFor({ why: 'invitation-used' });
    }
  });

  it('that nobody made, or that nobody took, is none', () => {
    shop(add('brook', 'supplier')).when(take()).refusedFor({ why: 'no-such-invitation' });
    shop(...invited)
      .when(settle(true))
      .refusedFor({ why: 'no-such-invitation' });
    shop().when(invite).refusedFor({ why: 'no-such-person' });
  });

  it('of somebody forgotten in the meantime is none any more', () => {
    const forget: ShopCommand = { type: 'forget', person: 'brook' };
    shop(...invited, forget)
      .when(take())
      .refusedFor({ why: 'no-such-invitation' });
    shop(...invited, take(), forget)
      .when(settle(true))
      .refusedFor({ why: 'no-such-invitation' });
  });
});

describe("the shop's words", () => {
  it('are learnt, learnt anew and unlearnt', () => {
    const learnt = shop({ type: 'learn-word', said: 'dolly', part: 'clutch lever' });
    expect(
      learnt.when({ type: 'learn-word', said: 'dolly', part: 'pawl' }).then('word-learnt').words,
    ).toEqual([{ said: 'dolly', part: 'pawl' }]);
    expect(learnt.when({ type: 'unlearn-word', said: 'dolly' }).then('word-unlearnt').words).toEqual([]);
    learnt.when({ type: 'unlearn-word', said: 'other' }).refusedFor({ why: 'no-such-word' });
    shop().when({ type: 'learn-word', said: ' ', part: 'pawl' }).refusedFor({ why: 'no-such-word' });
  });
});
