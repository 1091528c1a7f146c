import { describe, expect, it } from 'vitest';
import type { JobCommand } from '../../src/job/commands.js';
import type { Due, DueContext } from '../../src/job/due.js';
import { due } from '../../src/job/due.js';
import { nextOwnerHour } from '../../src/job/due/owner.js';
import { DEFAULT_POLICY, policySchema } from '../../src/shop/policy.js';
import type { Step } from '../support/given.js';
import { given, on } from '../support/given.js';
import { dueContext } from './due-context.js';
import { found, opened, pass, pounds, the } from './talk.js';

const dues = <K extends Due['kind']>(kind: K, steps: readonly Step[], more: Partial<DueContext> = {}) =>
  due(given(...steps).state, dueContext(more)).filter(
    (each): each is Extract<Due, { kind: K }> => each.kind === kind,
  );
const times = (kind: Due['kind'], steps: readonly Step[], more: Partial<DueContext> = {}): string[] =>
  dues(kind, steps, more).map(({ at }) => new Date(at).toISOString().slice(0, 16));

const settle = (release: boolean, steps: readonly Step[]): JobCommand => ({
  type: 'settle-notice',
  notice: given(...steps).state.notices.at(-1)?.id ?? '',
  release,
});

describe("owners' hours", () => {
  // Common practice, no source: the default quiet hours and Sundays are the design's.
  it.each([
    ['is the instant itself by day', '2026-03-02T10:00Z', '2026-03-02T10:00Z'],
    ['is eight on the minute', '2026-03-02T08:00Z', '2026-03-02T08:00Z'],
    ['is eight, from just before', '2026-03-02T07:59Z', '2026-03-02T08:00Z'],
    ['is the last minute of the evening', '2026-03-02T19:59Z', '2026-03-02T19:59Z'],
    ['is next morning from eight at night', '2026-03-02T20:00Z', '2026-03-03T08:00Z'],
    ['is Monday from a Saturday night', '2026-03-07T21:00Z', '2026-03-09T08:00Z'],
    ['is Monday from a Sunday noon', '2026-03-08T12:00Z', '2026-03-09T08:00Z'],
    ['is Saturday too', '2026-03-07T10:00Z', '2026-03-07T10:00Z'],
    ['is eight by summer time after the clocks went forward', '2026-03-28T22:00Z', '2026-03-30T07:00Z'],
    ['is eight by winter time after they went back', '2026-10-24T22:00Z', '2026-10-26T08:00Z'],
  ])('%s', (_what, at, expected) => {
    expect(new Date(nextOwnerHour(DEFAULT_POLICY, Date.parse(at))).toISOString()).toBe(
      new Date(expected).toISOString(),
    );
  });

  it.each([
    ['at midday', { from: '12:00', to: '14:00', days: [] }, '2026-03-02T09:00Z', '2026-03-02T09:00Z'],
    ['at midday', { from: '12:00', to: '14:00', days: [] }, '2026-03-02T12:30Z', '2026-03-02T14:00Z'],
    ['from midnight', { from: '00:00', to: '08:00', days: [] }, '2026-03-02T21:00Z', '2026-03-02T21:00Z'],
    ['from midnight', { from: '00:00', to: '08:00', days: [] }, '2026-03-02T03:00Z', '2026-03-02T08:00Z'],
    ['never', { from: '08:00', to: '08:00', days: [] }, '2026-03-02T03:00Z', '2026-03-02T03:00Z'],
    [
      'most of the week',
      { from: '20:00', to: '08:00', days: [1, 2, 3, 4, 6, 7] },
      '2026-03-07T12:00Z',
      '2026-03-13T08:00Z',
    ],
  ])('quiet %s are kept as set', (_what, quiet, at, expected) => {
    const policy = policySchema.parse({ owner: { quiet } });
    expect(new Date(nextOwnerHour(policy, Date.parse(at))).toISOString()).toBe(
      new Date(expected).toISOString(),
    );
  });
});

describe('notices', () => {
  it('wait for the mechanic, and go when they are let go', () => {
    const drafted = [opened(), pass('stripped')];
    expect(dues('notice', drafted)).toEqual([]);
    expect(times('notice', [...drafted, on('2026-03-06'), settle(true, drafted)])).toEqual([
      '2026-03-06T09:03',
    ]);
    expect(dues('notice', [...drafted, settle(false, drafted)])).toEqual([]);
  });

  it('let go on a Sunday wait for Monday morning', () => {
    const drafted = [opened(), pass('stripped')];
    expect(times('notice', [...drafted, on('2026-03-08'), settle(true, drafted)])).toEqual([
      '2026-03-09T08:00',
    ]);
  });

  it('go by themselves where the shop has said so', () => {
    const policy = policySchema.parse({ owner: { noticesGoByThemselves: true } });
    expect(dues('notice', [opened(), pass('stripped')], { policy })).toHaveLength(1);
  });

  it('go to nobody who is not in the chat', () => {
    const drafted = [opened(), pass('stripped')];
    expect(dues('notice', [...drafted, settle(true, drafted)], { isLinked: () => false })).toEqual([]);
  });
});

describe('the question for a yes', () => {
  it('goes once for all that was asked together, in their hours', () => {
    const asked: Step[] = [
      opened(),
      found(the('wheel rim'), { remedy: 'send-out', cost: pounds(80) }),
      found(the('seat'), { remedy: 'send-out', cost: pounds(90) }),
      on('2026-03-08'),
      { type: 'ask-yes', items: [1, 2] },
    ];
    expect(times('yes-asked', asked)).toEqual(['2026-03-09T08:00']);
    expect(
      dues('yes-asked', [...asked, { type: 'answer', items: [1, 2], outcome: 'yes', text: null }]),
    ).toEqual([]);
    expect(dues('yes-asked', asked, { spokenOf: () => 1 })).toEqual([]);
  });
});

describe('a silence', () => {
  it('of ten working days is broken', () => {
    expect(times('silence', [opened()])).toEqual(['2026-03-16T08:00']);
    expect(times('silence', [opened()], { ownerHeardAt: () => Date.parse('2026-03-10T11:00Z') })).toEqual([
      '2026-03-24T08:00',
    ]);
  });

  it('counts no bank holidays, and keeps to summer time', () => {
    expect(times('silence', [opened()], { ownerHeardAt: () => Date.parse('2026-03-27T11:00Z') })).toEqual([
      '2026-04-14T07:00',
    ]);
  });

  it('is not broken over a notice that waits for the mechanic, nor of a machine gone home', () => {
    expect(dues('silence', [opened(), pass('stripped')])).toEqual([]);
    expect(dues('silence', [opened({ owner: null })])).toEqual([]);
  });

  it('begins again where the mechanic lets the word drop', () => {
    const drafted: Step[] = [
      opened(),
      on('2026-03-16'),
      { type: 'draft-notice', about: 'silence', gate: null },
    ];
    expect(times('silence', [...drafted, settle(false, drafted)])).toEqual(['2026-03-30T07:00']);
  });
});

describe('a wanted-by day', () => {
  const wanted: Step[] = [opened(), { type: 'want-by', gate: 'stripped', date: '2026-04-20' }];
  const nudges = (steps: readonly Step[], more: Partial<DueContext> = {}) =>
    dues('nudge', steps, more).map(({ step, at }) => `${step} ${new Date(at).toISOString().slice(0, 16)}`);

  it('is nudged about ten and three working days before, and once when it is missed', () => {
    expect(nudges(wanted)).toEqual([
      'before-10 2026-04-02T07:00',
      'before-3 2026-04-15T07:00',
      'missed 2026-04-21T07:00',
    ]);
  });

  it('is said once each, and an earlier one not after a later', () => {
    expect(nudges(wanted, { spokenOf: (id) => (id.endsWith('before-3') ? 1 : null) })).toEqual([
      'missed 2026-04-21T07:00',
    ]);
    expect(nudges(wanted, { spokenOf: () => 1 })).toEqual([]);
  });

  it('is left alone once the gate is passed, or no day is wanted any more', () => {
    expect(nudges([...wanted, pass('stripped')])).toEqual([]);
    expect(nudges([...wanted, { type: 'want-by', gate: 'stripped', date: null }])).toEqual([]);
  });

  it('set late is nudged about only from then on', () => {
    expect(nudges([opened(), on('2026-04-16'), { type: 'want-by', gate: null, date: '2026-04-20' }])).toEqual(
      ['missed 2026-04-21T07:00'],
    );
    expect(nudges([opened(), on('2026-04-16'), { type: 'want-by', gate: null, date: '2026-04-01' }])).toEqual(
      [],
    );
  });

  it('moved is nudged about anew', () => {
    const ids = (steps: readonly Step[]) => dues('nudge', steps).map(({ id }) => id);
    const moved = ids([...wanted, { type: 'want-by', gate: 'stripped', date: '2026-05-20' }]);
    expect(moved).toHaveLength(3);
    expect(ids(wanted).filter((id) => moved.includes(id))).toEqual([]);
  });
});
