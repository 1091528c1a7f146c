import { describe, expect, it } from 'vitest';
import type { ModelFault } from '../../src/plan/model.js';
import { textOf } from '../../src/wording/answer.js';
import { faultText } from '../../src/wording/plan-faults.js';
import { stepName } from '../../src/wording/things.js';
import { found, opened, the } from '../job/talk.js';
import { given } from '../support/given.js';
import { stepForItem } from '../../src/job/template.js';
import { speakerOn } from './people.js';

const { state } = given(opened(), found(the('magneto'), { remedy: 'repair' }));
const said = (fault: ModelFault): string => textOf(faultText(state, fault, speakerOn('2026-03-16')));

describe('why a job can’t be planned', () => {
  it('names the job, the steps that go round in a ring, and the things fitted at them', () => {
    const magneto = Object.values(state.items).find(({ part }) => part === 'magneto');
    const step = magneto ? stepForItem(state.steps, magneto) : null;
    const [other] = state.steps.filter(({ id }) => id !== step);
    const text = said({ kind: 'cycle', ids: [`step-${step}`, `step-${other?.id}`], items: [] });
    expect(text).toContain(state.title);
    for (const id of [step, other?.id]) {
      const its = state.steps.find((each) => each.id === id);
      if (!its) throw new Error('a build order has steps');
      expect(text).toContain(stepName(its, speakerOn('2026-03-16')));
    }
    expect(text).toMatch(/\(with magneto \(1\)\)/i);
    expect(text).toMatch(/take one of those waits out/);
  });

  it('names whose calendar is missing or never opens', () => {
    expect(said({ kind: 'no-calendar', id: 'x', calendar: 'of-brook' })).toContain(
      speakerOn('2026-03-16').name('brook'),
    );
    expect(said({ kind: 'calendar-at-fault', calendar: 'shop', reason: '' })).toContain('the shop is open');
  });

  it('says that there is nobody to do it, or too much of it', () => {
    expect(said({ kind: 'no-hands' })).toMatch(/nobody in the shop/);
    expect(said({ kind: 'too-much', activities: 5000, atMost: 4000 })).toMatch(/5000.*4000/);
  });
});
