import { describe, expect, it } from 'vitest';
import type { JobCommand } from '../../src/job/commands.js';
import { awaitsYes, needOf } from '../../src/job/needs.js';
import type { Step } from '../support/given.js';
import { by, given, RULES } from '../support/given.js';
import {
  answered,
  back,
  fitted,
  found,
  holds,
  itemOf,
  opened,
  pass,
  pounds,
  sent,
  several,
  the,
} from './talk.js';

const RIM = the('wheel rim');
const rim = (amount: number) =>
  found(RIM, { conditions: ['rusty'], remedy: 'send-out', processes: ['chrome'], cost: pounds(amount) });
const ask: JobCommand = { type: 'ask-yes', items: [1] };
const priced = (amount: number): JobCommand => ({ type: 'price', target: RIM, cost: pounds(amount) });

const waits = (...steps: readonly Step[]): boolean => {
  const { state } = given(...steps);
  return awaitsYes(state, itemOf(state, 1), RULES);
};

describe("the owner's yes", () => {
  it('is wanted from the sum that the shop asks about', () => {
    expect(waits(opened(), rim(50))).toBe(true);
    expect(waits(opened(), rim(49.99))).toBe(false);
    expect(
      waits(
        opened(),
        found(several(2, 'wheel rim'), { remedy: 'replace', cost: pounds(30, { each: true }) }),
      ),
    ).toBe(true);
  });

  it('is never wanted where there is no such sum, no owner, no price, or nothing to pay for', () => {
    const { state } = given(opened(), rim(5000));
    expect(awaitsYes(state, itemOf(state, 1), { ownerYesFrom: null })).toBe(false);
    expect(waits(opened({ owner: null }), rim(80))).toBe(false);
    expect(waits(opened(), found(RIM, { remedy: 'send-out' }))).toBe(false);
    expect(waits(opened(), found(RIM, { remedy: 'keep', cost: pounds(80) }))).toBe(false);
  });

  it('holds up to the cost that was said when it was given', () => {
    expect(waits(opened(), rim(80), answered('yes', 1))).toBe(false);
    expect(waits(opened(), rim(80), answered('yes', 1), priced(80))).toBe(false);
    expect(waits(opened(), rim(80), answered('yes', 1), priced(81))).toBe(true);
    expect(waits(opened(), rim(80), answered('yes', 1), priced(81), answered('yes', 1))).toBe(false);
  });

  it('given without a price covers the work, not what it turns out to cost', () => {
    const job = [opened(), found(RIM, { remedy: 'send-out' }), answered('yes', 1)] as const;
    expect(waits(...job, priced(40))).toBe(false);
    expect(waits(...job, priced(300))).toBe(true);
  });

  it('by themselves is to what they were asked about; passed on by a mechanic, to what it is now', () => {
    const raised = [opened(), rim(80), ask, priced(120)] as const;
    expect(waits(...raised, by('owner-1'), answered('yes', 1))).toBe(true);
    expect(waits(...raised, answered('yes', 1))).toBe(false);
  });

  it('asked for is waited for, whatever the cost', () => {
    const job = given(opened(), rim(10), ask);
    expect(needOf(job.state, itemOf(job.state, 1), RULES)).toMatchObject({ kind: 'yes', asked: true });
    expect(holds(job.state, 'inspected')).toEqual(['owner-yes 1']);
    const talk = job.and(answered('talk', 1));
    expect(needOf(talk.state, itemOf(talk.state, 1), RULES)).toMatchObject({ kind: 'yes', talk: true });
  });

  it('is for the work agreed, not for other work', () => {
    expect(waits(opened(), rim(80), answered('yes', 1), found(RIM, { remedy: 'replace' }))).toBe(true);
    expect(waits(opened(), rim(80), answered('yes', 1), sent(RIM, 'brook'))).toBe(false);
    expect(waits(opened(), priced(80), answered('yes', 1), found(RIM, { remedy: 'replace' }))).toBe(false);
  });

  it('is not asked for again by the bill for finished work', () => {
    const job = [opened(), rim(80), answered('yes', 1), sent(RIM, 'brook'), back(RIM), priced(95)] as const;
    expect(waits(...job)).toBe(false);
    expect(holds(given(...job).state, 'reassembled')).toEqual([]);
  });

  it('missing keeps nothing from being recorded: the blocker stays', () => {
    const job = given(opened(), rim(80), sent(RIM, 'brook'));
    expect(holds(job.state, 'inspected')).toEqual(['owner-yes 1']);
    expect(holds(job.state, 'sublet-out')).toEqual([]);
    expect(holds(job.and(fitted(RIM)).state, 'inspected')).toEqual([]);
  });

  it('refused wants another remedy; the same again stays refused, and nothing is added to it', () => {
    const job = given(opened(), rim(80), answered('no', 1));
    expect(holds(job.state, 'inspected')).toEqual(['owner-said-no 1']);
    expect(holds(job.and(found(RIM, { remedy: 'send-out' })).state, 'inspected')).toEqual([
      'owner-said-no 1',
    ]);
    const other = job.and(found(RIM, { remedy: 'send-out', processes: ['paint'] }));
    expect(itemOf(other.state, 1)).toMatchObject({
      processes: ['paint'],
      agreement: { status: 'not-asked' },
    });
  });

  it('to nothing in particular is to all that was asked, else to all that is priced', () => {
    const two = [
      opened(),
      rim(80),
      found(the('seat'), { remedy: 'send-out', cost: pounds(200) }),
      found(the('chain'), { remedy: 'replace' }),
    ] as const;
    given(...two, ask)
      .when(answered('yes'))
      .then({ type: 'owner-answered', data: { items: [1] } });
    given(...two)
      .when(answered('yes'))
      .then({ type: 'owner-answered', data: { items: [1, 2] } });
    given(opened())
      .when(answered('yes'))
      .then({ type: 'owner-answered', data: { items: [] } });
    given(...two)
      .when(answered('no', 7))
      .refusedFor({ why: 'no-such-item', item: 7 });
  });

  it('is asked once, of an owner who is there', () => {
    given(opened(), rim(80))
      .when(ask)
      .then({ type: 'yes-asked', data: { items: [1] } });
    given(opened(), rim(80), ask).when(ask).then();
    given(opened({ owner: null }), rim(80))
      .when(ask)
      .refusedFor({ why: 'no-owner' });
    given(opened()).when(ask).refusedFor({ why: 'no-such-item', item: 1 });
  });
});

describe('notices', () => {
  it('are drafted as a gate passes or reopens, and as the machine goes home', () => {
    given(opened())
      .when(pass('stripped'))
      .then('gate-passed', { type: 'notice-drafted', data: { about: 'passed', gate: 'stripped' } });
  });

  it('not yet let go cancel out when the gate turns back', () => {
    const passed = given(opened(), found(RIM, { remedy: 'keep' }), pass('inspected'));
    const reopened = passed.and(found(RIM, { remedy: 'check' }));
    expect(reopened.state.notices.map(({ about, status }) => [about, status])).toEqual([
      ['passed', 'dropped'],
    ]);
    const again = reopened.and(found(RIM, { remedy: 'keep' }), pass('inspected'));
    expect(again.state.notices.map(({ status }) => status)).toEqual(['dropped', 'drafted']);
  });

  it('let go are followed by the next', () => {
    const passed = given(opened(), found(RIM, { remedy: 'keep' }), pass('inspected'));
    const [notice] = passed.state.notices;
    const released = passed.and({ type: 'settle-notice', notice: notice?.id ?? '', release: true });
    expect(released.state.notices[0]).toMatchObject({
      status: 'released',
      releasedAt: released.state.lastEventAt,
    });
    const reopened = released.and(found(RIM, { remedy: 'check' }));
    expect(reopened.state.notices.at(-1)).toMatchObject({ about: 'reopened', status: 'drafted' });
    const back = reopened.and(found(RIM, { remedy: 'keep' }), pass('inspected'));
    expect(back.state.notices.map(({ status }) => status)).toEqual(['released', 'dropped']);
  });

  it('are settled once', () => {
    const job = given(opened(), pass('stripped'));
    const id = job.state.notices[0]?.id ?? '';
    job.when({ type: 'settle-notice', notice: id, release: false }).then('notice-dropped');
    job
      .and({ type: 'settle-notice', notice: id, release: false })
      .when({ type: 'settle-notice', notice: id, release: true })
      .then();
    job.when({ type: 'settle-notice', notice: 'none', release: true }).refusedFor({ why: 'no-such-notice' });
  });

  it('have ids that never come again, whatever is undone', () => {
    const first = given(opened(), { set: { message: 'm1' } }, pass('stripped'));
    const again = first.and(
      { set: { message: undefined } },
      { type: 'undo', message: 'm1' },
      pass('stripped'),
    );
    expect(again.state.notices).toHaveLength(1);
    expect(again.state.notices[0]?.id).not.toBe(first.state.notices[0]?.id);
  });

  it('need an owner', () => {
    given(opened({ owner: null }))
      .when(pass('stripped'))
      .then('gate-passed');
    given(opened({ owner: null }))
      .when({ type: 'draft-notice', about: 'silence', gate: null })
      .refusedFor({ why: 'no-owner' });
    given(opened()).when({ type: 'draft-notice', about: 'silence', gate: null }).then('notice-drafted');
  });
});
