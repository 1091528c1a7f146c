import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import { roundUp } from '../../src/shop/round-up.js';
import { calendar } from '../job/due-context.js';
import { back, found, opened, ordered, pounds, sent, the } from '../job/talk.js';
import type { Step } from '../support/given.js';
import { given, on } from '../support/given.js';

const morning = (today: string, ...jobs: readonly (readonly Step[])[]) =>
  roundUp(
    jobs.map((steps, index) => ({ id: `j${index}`, state: given(opened(), ...steps).state })),
    today,
    calendar(),
    DEFAULT_POLICY,
  );

const out = (part: string, due: string | null, supplier: string | null = 'brook'): Step => ({
  ...sent(the(part), supplier),
  due,
});

describe('the morning round-up', () => {
  it('has nothing where nothing is late, due, or without a date', () => {
    expect(morning('2026-03-09', [], [out('seat', '2026-03-20')])).toMatchObject({ isEmpty: true });
  });

  it('has what is due today, and what is overdue from the day after', () => {
    const jobs = [[out('seat', '2026-03-06')]] as const;
    expect(morning('2026-03-06', ...jobs)).toMatchObject({ dueToday: [{ job: 'j0' }], overdue: [] });
    expect(morning('2026-03-09', ...jobs)).toMatchObject({
      dueToday: [],
      overdue: [{ job: 'j0' }],
      isEmpty: false,
    });
  });

  it('goes by the last date given, and forgets what is back', () => {
    const moved: Step[] = [
      out('seat', '2026-03-06'),
      on('2026-03-05'),
      { ...sent(the('seat'), 'brook'), due: '2026-03-12' },
    ];
    expect(morning('2026-03-09', moved).isEmpty).toBe(true);
    expect(morning('2026-03-13', [...moved, back(the('seat'))]).isEmpty).toBe(true);
    expect(morning('2026-03-13', [...moved, back(the('seat'), { outcome: 'part' })]).overdue).toHaveLength(1);
  });

  it('asks for a date of what has been out five working days without one, in or out of the chat', () => {
    const jobs = [[out('seat', null, null)], [ordered(the('chain'), 'harlow')]] as const;
    expect(morning('2026-03-06', ...jobs).unpromised).toEqual([]);
    expect(morning('2026-03-09', ...jobs).unpromised).toHaveLength(2);
    expect(morning('2026-03-09', [on('2026-04-01'), out('seat', null)]).unpromised).toEqual([]);
  });

  it('counts no bank holidays to it', () => {
    const job: Step[] = [on('2026-04-01'), out('seat', null)];
    expect(morning('2026-04-09', job).unpromised).toHaveLength(0);
    expect(morning('2026-04-10', job).unpromised).toHaveLength(1);
  });

  it('puts first what holds up most, over all jobs', () => {
    const { overdue } = morning('2026-03-20', [out('seat', '2026-03-02')], [out('frame', '2026-03-12')]);
    expect(overdue.map(({ job }) => job)).toEqual(['j1', 'j0']);
    expect(overdue[0]?.holdsUp).toBeGreaterThan(overdue[1]?.holdsUp ?? 0);
  });

  it('says which owners have not answered for five working days', () => {
    const asked: Step[] = [
      found(the('seat'), { remedy: 'send-out', cost: pounds(80) }),
      { type: 'ask-yes', items: [1] },
    ];
    expect(morning('2026-03-06', asked).unanswered).toEqual([]);
    expect(morning('2026-03-09', asked).unanswered).toMatchObject([{ job: 'j0', items: [1] }]);
    expect(
      morning('2026-03-09', [...asked, { type: 'answer', items: [1], outcome: 'talk', text: null }]).isEmpty,
    ).toBe(true);
  });
});
