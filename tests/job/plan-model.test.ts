import { describe, expect, it } from 'vitest';
import { planModel } from '../../src/job/plan/model.js';
import type { PlanContext } from '../../src/job/plan/model.js';
import type { JobState } from '../../src/job/state.js';
import { forecast } from '../../src/plan/forecast.js';
import { learnLeadTimes } from '../../src/plan/lead-times/learn.js';
import { lexicon } from '../../src/trade/lexicon/load.js';
import { leadTimePrior } from '../../src/trade/processes.js';
import { given, on, RULES } from '../support/given.js';
import { calendar } from './due-context.js';
import { found, opened, sent, the } from './talk.js';

const TODAY = '2026-03-16';

const context = (more: Partial<PlanContext> = {}): PlanContext => ({
  ...{ today: TODAY, benchHoursADay: 5, shopCalendar: calendar(), calendarOf: () => calendar() },
  leadTimes: learnLeadTimes([], leadTimePrior),
  rules: RULES,
  ...more,
});

const forecastOf = (state: JobState, more: Partial<PlanContext> = {}) =>
  forecast(planModel(state, context(more)), { seed: 1, runs: 500 });

const underWay = given(
  opened(),
  found(the('magneto'), { remedy: 'send-out', processes: ['rewind'] }),
  { ...sent(the('magneto'), 'orrin', 'rewind'), due: '2026-03-06' },
  on(TODAY),
).state;

describe('a job that cannot be planned as it stands', () => {
  it('names the ring that its build order goes round in, and what is on it', () => {
    const [first, second] = underWay.steps;
    if (!first || !second) throw new Error('a build order has steps');
    const steps = underWay.steps.map((step) =>
      step.id === first.id
        ? { ...step, after: [...step.after, second.id] }
        : step.id === second.id
          ? { ...step, after: [...step.after, first.id] }
          : step,
    );
    const result = forecastOf({ ...underWay, steps });
    expect(result).toMatchObject({ ok: false, fault: { kind: 'cycle' } });
    const ids = result.ok || result.fault.kind !== 'cycle' ? [] : result.fault.ids;
    expect(ids).toEqual(expect.arrayContaining([`step-${first.id}`, `step-${second.id}`]));
  });

  it('says whose calendar never opens', () => {
    const shut = () => calendar({ days: [] });
    expect(forecastOf(underWay, { calendarOf: shut })).toMatchObject({
      ok: false,
      fault: { kind: 'calendar-at-fault', calendar: 'of-orrin' },
    });
  });

  it('says that there are no hands', () => {
    expect(forecastOf(underWay, { benchHoursADay: 0 })).toMatchObject({
      ok: false,
      fault: { kind: 'no-hands' },
    });
  });
});

describe('a job that is hard to plan', () => {
  it('takes a promise that has passed for what it is: nothing is back before today', () => {
    const result = forecastOf(underWay);
    const line = Object.keys(underWay.lines)[0] ?? '';
    const away = result.ok ? result.activities.get(`out-${line}`) : undefined;
    expect(away?.ends.early).toBeDefined();
    expect((away?.ends.early ?? '') >= TODAY).toBe(true);
  });

  it('has five hundred things on it, and is forecast all the same', () => {
    const parts = lexicon.parts.slice(0, 500).map(({ name }) => name);
    const { state } = given(opened(), ...parts.map((part) => found(the(part), { remedy: 'clean' })));
    expect(Object.keys(state.items)).toHaveLength(500);
    const result = forecastOf(state);
    expect(result.ok).toBe(true);
    // 500 cleanings at 0.7 hours, at 5 hours a day, are 70 working days at the least: 14 weeks.
    expect(result.ok && result.handOver.early > '2026-06-15').toBe(true);
  });
});
