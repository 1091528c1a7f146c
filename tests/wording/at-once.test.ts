import { describe, expect, it } from 'vitest';
import { NO_HOLIDAYS } from '../../src/plan/holidays.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import { roundUp } from '../../src/shop/round-up.js';
import { textOf } from '../../src/wording/answer.js';
import { pictureKept } from '../../src/wording/bench.js';
import { checksText } from '../../src/wording/lists.js';
import { settledGuest } from '../../src/wording/people.js';
import { answerFor } from '../../src/wording/questions/answer-for.js';
import { sayBack } from '../../src/wording/read-back.js';
import { roundUpText } from '../../src/wording/round-up.js';
import { found, number, opened, pass, sent, several, step, the, tookOff } from '../job/talk.js';
import { given } from '../support/given.js';
import { labelsOf, linesOf, speakerOn } from './people.js';
import { readingOf, tell } from './telling.js';

const CALENDAR = { ...DEFAULT_POLICY.calendar, zone: 'Europe/London', holidays: NO_HOLIDAYS };
const IN = [opened()];
const said = (told: Parameters<typeof sayBack>[0]) => linesOf(sayBack(told, speakerOn('2026-03-02')));

describe('what is said back of several things at once', () => {
  it('tells several steps done at once in one line with their count, and why they come late in one', () => {
    const { steps } = given(opened()).state;
    const few = said(tell(IN, [step('sort-hardware'), step('mount-frame')]));
    expect(few).toEqual([
      'Build order: “Sort the nuts, bolts and studs” and “Set the frame up on the bench” done.',
    ]);
    const many = said(
      tell(
        IN,
        steps.slice(0, 6).map(({ id }) => step(id)),
      ),
    );
    expect(many).toHaveLength(1);
    expect(many).toEqual([
      'Build order: 6 steps done, from “Sort the nuts, bolts and studs” to “Fit the brake pedal and linkage”.',
    ]);
    const apart = said(tell(IN, [0, 1, 2, 4].flatMap((at) => steps[at]?.id ?? []).map(step)));
    expect(apart).toEqual([
      'Build order: 4 steps done, “Sort the nuts, bolts and studs”, “Set the frame up on the bench”, “Press in the steering head cups” and “Fit the rear suspension”.',
    ]);
    const early = said(tell(IN, [step('build-head'), step('build-gearbox')]));
    expect(early.filter((line) => line.startsWith('Noted'))).toEqual([
      'Noted, though by the build order “Build up the cylinder head” and “Build up the gearbox” come after “Sort the nuts, bolts and studs”.',
    ]);
  });

  it('tells several checks done at once in one line, with how many are left once', () => {
    const { checks } = given(opened()).state;
    const ticks = checks.map(({ id }) => ({ type: 'do-check', check: id, text: null }) as const);
    const left = checks.length - 13;
    expect(said(tell(IN, ticks.slice(0, 13)))).toEqual([
      `13 checks done, from “Check that every fastening is tight” to “Tappet clearances”. ${left} still to do.`,
    ]);
    expect(said(tell([...IN, ticks.slice(2)], ticks.slice(0, 2)))).toEqual([
      'Checked: “Check that every fastening is tight” and “Steering head free of play”. All are done.',
    ]);
    expect(said(tell([...IN, ticks.slice(1)], ticks.slice(0, 1)))).toEqual([
      'Checked: “Check that every fastening is tight”. That was the last check.',
    ]);
    expect(said(tell(IN, ticks)).join('\n')).toMatch(/\. All are done\.$/);
  });

  it('says so where a step is told as done while its thing is not ready', () => {
    const dirty = [...IN, found(several(2, 'wheel rim'), { remedy: 'clean' })];
    const builds = [step('build-front-wheel'), step('build-rear-wheel')];
    expect(said(tell(dirty, builds))).toContain('Noted, though still down as to be cleaned: wheel rims (1).');
    const clean = { type: 'work-done', target: number(1) } as const;
    expect(said(tell([...dirty, clean], builds)).join('\n')).not.toContain('still down');
    expect(said(tell(dirty, [clean, ...builds])).join('\n')).not.toContain('still down');
  });

  it('says nothing of a notice that a finding dropped by the way, but tells of one dropped by hand', () => {
    const done = [...IN, tookOff(the('footrest'), { remedy: 'keep' }), pass('stripped'), pass('inspected')];
    const told = tell(done, [found(the('wheel rim', 'rear'), { conditions: ['rusty'] })]);
    expect(told.events.map(({ type }) => type)).toContain('notice-dropped');
    expect(said(told).join('\n')).not.toContain('notice');
    const [notice] = given(...done).state.notices;
    const drop = { type: 'settle-notice', notice: notice?.id ?? '', release: false } as const;
    expect(said(tell(done, [drop]))).toEqual(['That notice won’t go.']);
  });

  it('names gates left with nothing in their way in one line', () => {
    const before = [...IN, found(the('footrest'), { conditions: ['good'] }), pass('stripped')];
    const told = tell([...before, found(number(1), { remedy: 'keep' })], [pass('inspected')]);
    expect(said(told)).toContain('Nothing is left in the way of “parts ordered” and “sublet out”.');
  });

  it('of pictures kept before their words, only an undoing', () => {
    const told = tell(IN, [found(the('chain'))], readingOf({ part: 'chain' }));
    expect(labelsOf(sayBack(told, speakerOn()))).toContain('Change');
    expect(labelsOf(pictureKept(sayBack(told, speakerOn())))).toEqual(['Undo']);
  });
});

describe('a mechanic reads', () => {
  it('of things that went out together, one row with what most is held up by, and the number once', () => {
    const named = [the('petrol tank'), the('mudguard', 'front'), the('frame')];
    const gone = named.map((target) => ({ ...sent(target, 'brook', 'paint'), due: '2026-03-13' }));
    const { state } = given(opened(), ...gone);
    const job = { id: 'job', state };
    const found = roundUp([job], '2026-03-16', CALENDAR, DEFAULT_POLICY);
    const lines = linesOf(roundUpText(found, new Map([['job', job]]), new Map(), speakerOn('2026-03-16')));
    expect(lines).toHaveLength(3);
    expect(lines[2]).toMatch(
      /^• frame \(3\), .+ \([12]\) and .+ \([12]\): there for painting since 2 March; the first holds up “Set the frame up on the bench” and \d+ steps after it$/,
    );
    const asked = { about: 'holding', gate: null, part: null, supplier: null } as const;
    const holds = answerFor(
      {
        ...{
          question: asked,
          item: null,
          container: null,
          suppliers: [],
          jobs: [job],
          policy: DEFAULT_POLICY,
        },
        ...{ plans: new Map(), faults: new Map(), today: null, full: false },
      },
      speakerOn('2026-03-11'),
    );
    expect(linesOf(holds).slice(0, 2)).toEqual([
      'Cobnut Plating, 01632 960114: 3 things',
      '• petrol tank (1), front mudguard (2) and frame (3): painting, since 2 March, promised for Fri 13 March',
    ]);
  });

  it('of things due today, what holds up most first', () => {
    const due = { due: '2026-03-13' };
    const tank = { ...sent(the('petrol tank'), 'brook', 'paint'), ...due };
    const { state } = given(opened(), tank, { ...sent(the('frame'), 'brook', 'blast'), ...due });
    const job = { id: 'job', state };
    const found = roundUp([job], '2026-03-13', CALENDAR, DEFAULT_POLICY);
    const lines = linesOf(roundUpText(found, new Map([['job', job]]), new Map(), speakerOn('2026-03-13')));
    expect(lines.slice(2).map((line) => line.split(':')[0])).toEqual(['• frame (2)', '• petrol tank (1)']);
  });

  it('of somebody let in, what that lets them do', () => {
    const of = (role: 'mechanic' | 'owner' | 'supplier') => textOf(settledGuest('Joss', true, role));
    expect(of('mechanic')).toBe('Joss can write to me now, and can do all that you can.');
    expect(of('owner')).toBe('Joss can write to me now, and sees only what is theirs.');
    expect(of('supplier')).toBe('Joss can write to me now, and sees only what they have of yours.');
  });

  it('of the checks, by the numbers they are spoken of', () => {
    const { state } = given(opened());
    const [first] = state.checks;
    const ticked = given(opened(), { type: 'do-check', check: first?.id ?? '', text: null }).state;
    const lines = linesOf(checksText({ id: 'job', state: ticked }, speakerOn()));
    expect(lines.slice(2, 4)).toEqual([`1. ✓ ${first?.name ?? ''}`, `2. ${state.checks[1]?.name ?? ''}`]);
  });
});
