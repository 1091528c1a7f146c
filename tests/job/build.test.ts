import { describe, expect, it } from 'vitest';
import { blockersOf } from '../../src/job/blockers.js';
import { inOrder, waitingFor } from '../../src/job/build-order.js';
import type { JobCommand } from '../../src/job/commands.js';
import { given, RULES } from '../support/given.js';
import {
  allSteps,
  back,
  blocks,
  fitted,
  found,
  holds,
  itemOf,
  lineOf,
  number,
  opened,
  ordered,
  pass,
  sent,
  setUpAndRidden,
  several,
  step,
  the,
  tookOff,
} from './talk.js';

const link = (id: string, after: string, linked = true): JobCommand => ({
  type: 'link-step',
  step: id,
  after,
  linked,
});
const adding = (after: string[], before: string[] = []): JobCommand => ({
  type: 'add-step',
  name: 't',
  after,
  before,
  parts: ['tank badge'],
  hours: 0.5,
});
const stepOf = (job: ReturnType<typeof given>, id: string) => job.state.steps.find((each) => each.id === id);

describe('the build order of a job', () => {
  it('takes a step between others', () => {
    const job = given(opened(), adding(['fit-petrol-tank'], ['fit-seat']));
    const added = job.state.steps.at(-1);
    expect(added).toMatchObject({
      name: { kind: 'said', text: 't' },
      after: ['fit-petrol-tank'],
      hours: 0.5,
      fitted: false,
    });
    expect(stepOf(job, 'fit-seat')?.after).toContain(added?.id);
    const order = inOrder(job.state.steps).map(({ id }) => id);
    expect(order.indexOf(added?.id ?? '')).toBeLessThan(order.indexOf('fit-seat'));
  });

  it('ties things to an added step that names them', () => {
    const job = given(opened(), adding([]), found(the('tank badge'), { remedy: 'clean' }));
    expect(blockersOf(job.state, 'reassembled', RULES)).toContainEqual(
      expect.objectContaining({ kind: 'work-undone', item: 1, step: job.state.steps.at(-1)?.id }),
    );
  });

  it('gives added steps ids that never come again', () => {
    const job = given(opened(), adding([]));
    const id = job.state.steps.at(-1)?.id ?? '';
    const again = job.and({ type: 'drop-step', step: id }, adding([]));
    expect(again.state.steps.at(-1)?.id).not.toBe(id);
  });

  it('refuses a loop and names its steps', () => {
    given(opened())
      .when(link('mount-frame', 'fit-stands'))
      .refusedFor({ why: 'loop', steps: ['fit-stands', 'mount-frame'] });
    given(opened())
      .when(link('fit-seat', 'fit-seat'))
      .refusedFor({ why: 'loop', steps: ['fit-seat'] });
    given(opened())
      .when(adding(['fit-stands'], ['mount-frame']))
      .refusedFor({ why: 'loop', steps: ['fit-stands', 'mount-frame'] });
    given(opened())
      .when(adding(['fit-seat'], ['fit-seat']))
      .refusedFor({ why: 'loop', steps: ['fit-seat'] });
  });

  it('drops a step, and what waited for it waits for what it waited for', () => {
    const job = given(opened(), link('fit-seat', 'fit-stands'), { type: 'drop-step', step: 'fit-stands' });
    expect(stepOf(job, 'fit-stands')).toBeUndefined();
    expect(stepOf(job, 'fit-seat')?.after).toEqual(expect.arrayContaining(['mount-frame', 'sort-hardware']));
  });

  it('links, unlinks and times steps', () => {
    const job = given(opened(), link('fit-seat', 'fit-stands'), {
      type: 'time-step',
      step: 'fit-seat',
      hours: 3,
    });
    expect(stepOf(job, 'fit-seat')).toMatchObject({ hours: 3 });
    expect(stepOf(job, 'fit-seat')?.after).toContain('fit-stands');
    expect(stepOf(job.and(link('fit-seat', 'fit-stands', false)), 'fit-seat')?.after).not.toContain(
      'fit-stands',
    );
  });

  it('knows no step that is not there', () => {
    const unknown: JobCommand[] = [
      step('no'),
      { type: 'undo-step', step: 'no' },
      { type: 'drop-step', step: 'no' },
      { type: 'time-step', step: 'no', hours: 1 },
      link('no', 'fit-seat'),
      adding(['no']),
      adding([], ['no']),
    ];
    for (const command of unknown)
      given(opened()).when(command).refusedFor({ why: 'no-such-step', step: 'no' });
    given(opened()).when(link('fit-seat', 'no')).refusedFor({ why: 'no-such-step', step: 'no' });
  });

  it('counts the steps that wait for one', () => {
    const { state } = given(opened(), step('fit-stands'));
    expect(waitingFor(state.steps, 'mount-frame')).toBeGreaterThan(3);
    expect(waitingFor(state.steps, 'tighten-all')).toBe(0);
  });
});

describe('fitting', () => {
  it('of a thing never spoken of takes it for kept', () => {
    given(opened())
      .when(fitted(the('footrest', 'left')))
      .then('item-listed', { type: 'remedy-decided', data: { remedy: 'keep' } }, 'item-fitted');
  });

  it('of the main thing of a step fits the step, once nothing of it is left', () => {
    const job = given(opened(), found(the('magneto'), { remedy: 'keep' }));
    job
      .when(fitted(the('magneto')))
      .then('item-fitted', { type: 'step-fitted', data: { step: 'fit-magneto' } });
    const withBits = job.and(found(the('magneto drive'), { remedy: 'keep' }));
    withBits.when(fitted(the('magneto'))).then('item-fitted');
    withBits
      .and(fitted(the('magneto')))
      .when(fitted(the('magneto drive')))
      .then('item-fitted', 'step-fitted');
    withBits
      .and(fitted(the('magneto drive')))
      .when(fitted(the('magneto')))
      .then('item-fitted', 'step-fitted');
  });

  it('of one side is half of a step', () => {
    const left = given(opened(), fitted(the('footrest', 'left')));
    left
      .when(fitted(the('footrest', 'right')))
      .then('item-listed', 'remedy-decided', 'item-fitted', 'step-fitted');
    given(opened())
      .when(fitted(the('footrest', 'left', 'right')))
      .then('item-listed', 'remedy-decided', 'item-fitted', 'step-fitted');
  });

  it('of a small thing alone leaves its step to the mechanic', () => {
    given(opened())
      .when(fitted(the('magneto drive')))
      .then('item-listed', 'remedy-decided', 'item-fitted');
  });

  it('says that the thing has come back, where that was not said', () => {
    const job = given(opened(), sent(the('footrest', 'left'), 'brook', 'chrome'));
    const outcome = job.when(fitted(the('footrest', 'left')));
    outcome.then({ type: 'line-returned', data: { outcome: 'all' } }, 'item-fitted');
    expect(lineOf(outcome.state, 1).status).toBe('back');
  });

  it('of what came in part leaves the rest to come', () => {
    const job = given(
      opened(),
      sent(several(6, 'spoke'), 'brook'),
      back(the('spoke'), { outcome: 'part', count: 4 }),
      fitted(the('spoke')),
    );
    expect(holds(job.state, 'reassembled')).toEqual(['out 1']);
    expect(holds(job.and(back(the('spoke'))).state, 'reassembled')).toEqual([]);
  });

  it('settles what was to be looked at again', () => {
    const { state } = given(opened(), found(the('seat'), { remedy: 'check' }), fitted(the('seat')));
    expect(blocks(state, 'inspected')).toEqual([]);
  });

  it('keeps what was measured', () => {
    const reading = { quantity: 'torque', value: 60, unit: 'lbf.ft' } as const;
    const { state } = given(opened(), fitted(the('front wheel nut'), { readings: [reading] }));
    expect(itemOf(state, 1).findings.flatMap(({ readings }) => readings)).toEqual([reading]);
  });

  it('may be out of order, and then says nothing of the steps before', () => {
    const job = given(opened()).when(step('fit-seat'));
    job.then('step-fitted');
    expect(job.state.steps.filter((each) => each.fitted).map(({ id }) => id)).toEqual(['fit-seat']);
    given(opened(), step('fit-seat')).when(step('fit-seat')).then();
  });

  it('of a step takes on what is ready, and waits for the rest', () => {
    const job = given(
      opened(),
      found(the('seat'), { remedy: 'keep' }),
      ordered(the('seat spring'), 'harlow'),
      step('fit-seat'),
    );
    expect([itemOf(job.state, 1).fitted, itemOf(job.state, 2).fitted]).toEqual([true, false]);
    expect(holds(job.state, 'reassembled')).toEqual(['on-order 2']);
    expect(holds(job.and(back(number(2))).state, 'reassembled')).toEqual(['item-to-fit 2']);
    expect(holds(job.and(back(number(2)), fitted(number(2))).state, 'reassembled')).toEqual([]);
  });

  it('is undone by taking off', () => {
    const { state } = given(opened(), fitted(the('magneto')), tookOff(the('magneto'), { stored: 'box 3' }));
    expect(itemOf(state, 1)).toMatchObject({ fitted: false, stored: 'box 3' });
    expect(holds(state, 'reassembled')).toEqual(['item-to-fit 1']);
  });
});

describe('handing over', () => {
  const built = () => {
    const job = given(opened(), found(the('seat'), { remedy: 'keep' }));
    const steps = [
      pass('stripped'),
      pass('inspected'),
      pass('parts-ordered'),
      pass('sublet-out'),
      ...allSteps(job.state),
      pass('reassembled'),
    ];
    return job.and(...steps, ...setUpAndRidden(job.state));
  };

  it('wants every gate passed', () => {
    built()
      .when({ type: 'hand-over' })
      .refusedFor({ why: 'gates-open', gates: ['road-tested'] });
    built()
      .and(pass('road-tested'))
      .when({ type: 'hand-over' })
      .then(
        { type: 'handed-over', data: { on: '2026-03-02' } },
        { type: 'notice-drafted', data: { about: 'handed-over' } },
      );
  });

  it('with a line open has a gate to pass first', () => {
    const ready = built().and(pass('road-tested'), ordered(the('tool roll'), 'harlow'));
    ready.when({ type: 'hand-over' }).refusedFor({ why: 'gates-open', gates: ['reassembled'] });
  });

  it('is done once, and what is said later is kept and reopens nothing', () => {
    const gone = built().and(pass('road-tested'), { type: 'hand-over' });
    gone.when({ type: 'hand-over' }).then();
    gone
      .when(found(the('seat'), { conditions: ['split'], remedy: 'replace' }))
      .then('finding-logged', 'remedy-decided');
    gone.when({ type: 'find-fault', target: null, text: 't' }).then('fault-found');
  });
});

describe('checks and faults', () => {
  it('are ticked, found and cleared by name and number', () => {
    given(opened()).when({ type: 'do-check', check: 'spokes', text: null }).then('check-done');
    given(opened())
      .when({ type: 'do-check', check: 'no', text: null })
      .refusedFor({ why: 'no-such-check', check: 'no' });
    const faulty = given(
      opened(),
      found(the('clutch')),
      { type: 'find-fault', target: the('clutch'), text: 'a' },
      { type: 'find-fault', target: null, text: 'b' },
    );
    expect(faulty.state.faults.map(({ number: n, item, text }) => [n, item, text])).toEqual([
      [1, 1, 'a'],
      [2, null, 'b'],
    ]);
    faulty.when({ type: 'clear-fault', fault: 2 }).then('fault-cleared');
    faulty.and({ type: 'clear-fault', fault: 2 }).when({ type: 'clear-fault', fault: 2 }).then();
    faulty.when({ type: 'clear-fault', fault: 3 }).refusedFor({ why: 'no-such-fault', fault: 3 });
  });
});
