import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarFault } from '../../src/plan/calendar.js';
import { NO_HOLIDAYS } from '../../src/plan/holidays.js';
import type { Policy } from '../../src/shop/policy.js';
import { calendarSchema, DEFAULT_POLICY, policySchema } from '../../src/shop/policy.js';
import { parseRule, RULES, valueOf } from '../../src/shop/rules.js';
import { policyOf } from '../../src/shop/state.js';
import { shop } from './talk.js';

const set = (path: string[], value: unknown, fromFile: Policy = DEFAULT_POLICY) =>
  ({ type: 'set-policy', path, value, fromFile }) as const;

describe('policies', () => {
  it('are the design’s by default', () => {
    expect(DEFAULT_POLICY).toMatchObject({
      mechanic: { askPromiseAfter: 5 },
      supplier: { checkBefore: 2, checkWhereLeadOver: 7, chaseAfter: 1, chaseAgainAfter: 3 },
      owner: {
        noticeAfterSilence: 10,
        noticesGoByThemselves: false,
        quiet: { from: '20:00', to: '08:00', days: [7] },
      },
      wantedBy: { nudgeBefore: [10, 3] },
    });
  });

  it('set in chat stand over those of the file, the last one over the others', () => {
    const fromFile = policySchema.parse({ supplier: { chaseAfter: 2, chaseAgainAfter: 9 } });
    const { state } = shop(
      set(['supplier', 'chaseAfter'], 3, fromFile),
      set(['supplier', 'chaseAfter'], 4, fromFile),
    );
    expect(policyOf(state, fromFile).supplier).toMatchObject({ chaseAfter: 4, chaseAgainAfter: 9 });
  });

  it('that a later program knows no more are left out', () => {
    const { state } = shop(set(['owner', 'yesFrom'], 80));
    const odd = {
      ...state,
      overrides: [...state.overrides, { path: ['supplier', 'chaseAfter'], value: 'soon' }],
    };
    expect(policyOf(odd, DEFAULT_POLICY)).toEqual(policySchema.parse({ owner: { yesFrom: 80 } }));
  });

  it.each([
    [['supplier', 'chaseAfter'], 0],
    [['supplier', 'chaseAfter'], 2.5],
    [['supplier', 'chaseAfter'], 1e9],
    [['supplier', 'chaseAfter'], 'two'],
    [['supplier'], 7],
    [['mechanic', 'roundUpAt'], '25:00'],
    [['mechanic', 'roundUpAt'], null],
    [
      ['owner', 'quiet', 'days'],
      [1, 2, 3, 4, 5, 6, 7],
    ],
    [['owner', 'quiet', 'days'], [8]],
    [['owner', 'yesFrom'], -1],
    [['zone'], 'Mars/North'],
    [['calendar', 'days'], []],
    [['calendar', 'region'], 'ZZ-QQ'],
    [['calendar', 'hours', 'from'], '19:00'],
    [['calendar', 'closed'], [{ from: '2026-08-10', to: '2026-08-01' }]],
    [['calendar', 'closed'], [{ from: '2026-01-01', to: '2046-01-01' }]],
  ])('refuse %j as %j, and say why', (path, value) => {
    const { refusal } = shop().when(set(path, value));
    expect(refusal).toMatchObject({ why: 'policy-wrong' });
    expect(refusal && 'problem' in refusal ? refusal.problem : '').not.toBe('');
  });

  it.each([
    [['supplier', 'chaseAftr']],
    [['suplier', 'chaseAfter']],
    [['supplier', 'chaseAfter', 'days']],
    [['constructor']],
    [['__proto__']],
    [[]],
  ])('know no rule called %j', (path) => {
    expect(shop().when(set(path, 3)).refusal).toMatchObject({ why: 'policy-wrong' });
  });

  it('can always be reckoned with: any that is taken gives a calendar that works', () => {
    const clock = fc
      .tuple(fc.nat(25), fc.nat(61))
      .map(([h, m]) => `${String(h).padStart(2, '0')}:${String(m).padStart(2, '0')}`);
    const date = fc.constantFrom('2026-01-01', '2026-06-01', '2027-01-01', '2040-01-01');
    const settings = fc.record(
      {
        days: fc.array(fc.integer({ min: 0, max: 8 }), { maxLength: 4 }),
        hours: fc.record({ from: clock, to: clock }),
        closed: fc.array(fc.record({ from: date, to: date }), { maxLength: 2 }),
        region: fc.constantFrom(null, 'GB-SCT'),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(settings, (tried) => {
        const parsed = calendarSchema.safeParse(tried);
        if (!parsed.success) return;
        const { days, hours, closed } = parsed.data;
        expect(
          calendarFault({ zone: 'Europe/London', days, hours, closed, holidays: NO_HOLIDAYS }),
        ).toBeNull();
      }),
      { seed: 20260302, numRuns: 500 },
    );
  });

  it('of one supplier’s days are checked likewise', () => {
    const calendar = { days: [1], hours: { from: '17:00', to: '09:00' }, closed: [], region: null };
    const added = shop({ type: 'add-person', person: 'brook', role: 'supplier', processes: [], trades: [] });
    expect(added.when({ type: 'set-calendar', of: 'brook', calendar }).refusal).toMatchObject({
      why: 'policy-wrong',
    });
    const right = { ...calendar, hours: { from: '09:00', to: '12:00' } };
    expect(
      added.when({ type: 'set-calendar', of: 'brook', calendar: right }).then('calendar-set').people['brook']
        ?.calendar,
    ).toEqual(right);
  });
});

describe('rules by number', () => {
  it('each name a setting that is there, and take a value as it would be said', () => {
    const said = { time: '9', days: '4 working days', money: '£1,250.50', 'yes-no': 'yes' } as const;
    const meant = { time: '09:00', days: 4, money: 1250.5, 'yes-no': true } as const;
    for (const rule of RULES) {
      const value = parseRule(rule, said[rule.says]);
      expect(value, rule.id).toBe(meant[rule.says]);
      const { state } = shop(set([...rule.path], value));
      expect(valueOf(rule, policyOf(state, DEFAULT_POLICY)), rule.id).toBe(value);
    }
  });

  it('have each their own id and setting', () => {
    expect(new Set(RULES.map(({ id }) => id)).size).toBe(RULES.length);
    expect(new Set(RULES.map(({ path }) => path.join('.'))).size).toBe(RULES.length);
  });

  it('make nothing of what is no such value', () => {
    const nonsense = ['', 'soon', '-3', '1e9', 'yesterday', '9:5', '£', '🙂'];
    for (const rule of RULES)
      for (const said of nonsense) expect(parseRule(rule, said), `${rule.id} ${said}`).toBeUndefined();
  });

  it('take never for no sum at all, and time with a stop or a colon', () => {
    const rule = (says: string) => RULES.find((each) => each.says === says) as (typeof RULES)[number];
    expect(parseRule(rule('money'), 'never')).toBeNull();
    expect(parseRule(rule('time'), '7.45')).toBe('07:45');
    expect(parseRule(rule('time'), '19:30')).toBe('19:30');
    expect(parseRule(rule('yes-no'), 'off')).toBe(false);
  });
});
