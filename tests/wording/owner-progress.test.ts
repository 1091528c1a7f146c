import { describe, expect, it } from 'vitest';
import { MILESTONES, seenSince } from '../../src/wording/owner/milestones.js';
import { doneSince } from '../../src/wording/owner/standing.js';
import { textOf } from '../../src/wording/answer.js';
import { noticeText, yesAskedText } from '../../src/wording/owner.js';
import {
  allSteps,
  back,
  found,
  number,
  opened,
  pass,
  pounds,
  sent,
  several,
  step,
  the,
  tookOff,
} from '../job/talk.js';
import type { Step } from '../support/given.js';
import { given, on, RULES } from '../support/given.js';
import { linesOf, speakerOn } from './people.js';

const away = { ...sent(several(2, 'wheel rim'), 'brook', 'chrome'), due: '2026-03-13' };

describe('what an owner is told', () => {
  it('of the building up, what can be seen and not what prepares it', () => {
    const start = given(opened(), tookOff(the('footrest'), { remedy: 'keep' }), pass('stripped'));
    const toldAfter = (...more: Step[]) => {
      const { state } = start.and(on('2026-03-20'), ...more);
      return doneSince(state, Date.parse('2026-03-10T00:00:00Z'), null, speakerOn('2026-03-20'));
    };
    expect(toldAfter(step('sort-hardware'), step('fit-head-cups'))).toEqual(['The building up goes on.']);
    expect(toldAfter(step('sort-hardware'), step('mount-frame'), step('fit-front-wheel'))).toEqual([
      'The frame stands.',
    ]);
    const wheels = [step('fit-front-wheel'), step('fit-rear-wheel')];
    expect(toldAfter(step('fit-engine'), wheels)).toEqual([
      'The engine is in the frame and the wheels are in.',
    ]);
    const { state } = start.and(wheels, on('2026-03-20'), step('fit-forks'));
    expect(seenSince(state, Date.parse('2026-03-10T00:00:00Z'))).toEqual(['the forks are on']);
  });

  it('of every build order the same things, by steps that it has', () => {
    for (const template of ['single-separate-gearbox', 'unit-twin']) {
      const { state } = given(opened({ template }));
      const built = given(opened({ template }), allSteps(state)).state;
      expect(seenSince(built, 0)).toEqual(MILESTONES.map(({ seen }) => seen));
      const ids = state.steps.map(({ id }) => id);
      expect(MILESTONES.flatMap(({ steps }) => steps).filter((id) => !ids.includes(id))).toEqual([]);
    }
  });

  it('of a part sent back, that it goes again; of a new one, that something more goes out', () => {
    const passed = given(
      ...[opened(), tookOff(the('footrest'), { remedy: 'keep' }), away, pass('stripped')],
      ...[pass('inspected'), pass('parts-ordered'), pass('sublet-out')],
    );
    const notice = passed.state.notices.at(-1)?.id ?? '';
    const gone = passed.and({ type: 'settle-notice', notice, release: true });
    const more = found(the('handlebar'), { remedy: 'send-out', processes: ['chrome'] });
    const reopened = ({ state }: ReturnType<typeof given>) => {
      const notice = state.notices.findLast(
        ({ about, gate }) => about === 'reopened' && gate === 'sublet-out',
      );
      return textOf(noticeText({ id: 'job', state }, notice?.id ?? '', RULES, speakerOn()));
    };
    expect(gone.state.gates['sublet-out'].passed).toBe(true);
    expect(reopened(gone.and(back(the('wheel rim'), { outcome: 'refused' })))).toContain(
      'One of the parts came back not as it should be, and goes again.',
    );
    expect(reopened(gone.and(more))).toContain('Something more has to go out to a specialist.');
    expect(reopened(gone.and(more))).not.toContain('Next: ');
  });

  it('of a thing looked at twice, what was found last', () => {
    const { state } = given(
      opened(),
      found(the('brake plate', 'front'), { conditions: ['good', 'rusty'] }),
      found(number(1), { conditions: ['cracked'], remedy: 'replace', cost: pounds(65) }),
      found(number(1), { readings: [{ quantity: 'diameter', value: 30, unit: 'mm' }] }),
      { type: 'ask-yes', items: [1] },
    );
    expect(linesOf(yesAskedText({ id: 'job', state }, speakerOn()))[2]).toBe(
      '• Front brake plate: cracked; to be replaced, £65',
    );
  });
});
