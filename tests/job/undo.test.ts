import { describe, expect, it } from 'vitest';
import type { JobCommand } from '../../src/job/commands.js';
import { foldJob } from '../../src/job/fold.js';
import { given, inMessage } from '../support/given.js';
import {
  back,
  found,
  holds,
  itemOf,
  opened,
  ordered,
  pass,
  passedGates,
  promised,
  sent,
  setUpAndRidden,
  the,
  undo,
} from './talk.js';

const RIM = the('wheel rim');
const CHAIN = the('chain');

describe('undo', () => {
  it('takes back all that a message said', () => {
    const before = given(opened(), found(CHAIN));
    const said = before.and(inMessage('m1'), [found(RIM, { conditions: ['rusty'] }), sent(CHAIN, 'brook')]);
    const { state } = said.and(inMessage(undefined), undo('m1'));
    const { lastEventAt, version } = state;
    expect(state).toEqual({ ...before.state, lastEventAt, version });
    expect(Object.keys(state.items)).toEqual(['1']);
  });

  it('is refused where there is nothing to take back', () => {
    const job = given(opened(), inMessage('m1'), found(RIM), inMessage(undefined));
    job.when(undo('m2')).refusedFor({ why: 'nothing-to-undo' });
    job.and(undo('m1')).when(undo('m1')).refusedFor({ why: 'nothing-to-undo' });
  });

  it('keeps an item that later talk built on, without what was said of it, and can be done once', () => {
    const job = given(
      opened(),
      inMessage('m1'),
      found(RIM, { conditions: ['rusty'] }),
      inMessage('m2'),
      found(RIM, { remedy: 'clean' }),
    );
    const undone = job.and(inMessage(undefined), undo('m1'));
    expect(itemOf(undone.state, 1)).toMatchObject({ part: 'wheel rim', remedy: 'clean' });
    expect(itemOf(undone.state, 1).findings).toHaveLength(1);
    undone.when(undo('m1')).refusedFor({ why: 'nothing-to-undo' });
    expect(undone.and(undo('m2')).state.items).toEqual({});
  });

  it('of a send takes the dates given for it away too', () => {
    const job = given(
      opened(),
      found(RIM, { remedy: 'send-out' }),
      inMessage('m1'),
      sent(RIM, 'brook'),
      inMessage('m2'),
      promised(RIM, '2026-03-20'),
    );
    const { state } = job.and(inMessage(undefined), undo('m1'));
    expect(state.lines).toEqual({});
    expect(holds(state, 'sublet-out')).toEqual(['still-here 1']);
  });

  it('of a return puts the thing back with its supplier', () => {
    const job = given(
      opened(),
      sent(RIM, 'brook'),
      inMessage('m1'),
      back(RIM),
      inMessage(undefined),
      undo('m1'),
    );
    expect(holds(job.state, 'reassembled')).toEqual(['out 1']);
  });

  it('reopens the gates that it leaves blocked, once settled', () => {
    const job = given(
      opened(),
      found(CHAIN, { remedy: 'replace' }),
      inMessage('m1'),
      ordered(CHAIN),
      inMessage(undefined),
      pass('parts-ordered'),
    );
    const outcome = job.and(undo('m1')).when({ type: 'settle' });
    outcome.then({ type: 'gate-reopened', data: { gate: 'parts-ordered' } }, 'notice-dropped');
  });

  it('passes again the gates that what is undone had reopened', () => {
    const job = given(
      opened(),
      found(RIM, { remedy: 'keep' }),
      pass('inspected'),
      inMessage('m1'),
      found(CHAIN),
    );
    expect(passedGates(job.state)).toEqual([]);
    const undone = job.and(inMessage(undefined), undo('m1'), { type: 'settle' });
    expect(passedGates(undone.state)).toEqual(['inspected']);
    const other = job.and(inMessage('m2'), found(the('seat')), inMessage(undefined), undo('m1'), {
      type: 'settle',
    });
    expect(passedGates(other.state)).toEqual([]);
  });

  it('lets an edited message be said anew', () => {
    const job = given(
      opened(),
      inMessage('m1'),
      found(RIM, { conditions: ['rusty'] }),
      inMessage(undefined),
      undo('m1'),
      inMessage('m1'),
      found(CHAIN, { conditions: ['worn'] }),
    );
    expect(Object.values(job.state.items).map(({ part }) => part)).toEqual(['chain']);
    expect(job.and(inMessage(undefined), undo('m1')).state.items).toEqual({});
  });

  it('of the message that opened the job leaves the job', () => {
    const job = given(inMessage('m1'), opened(), inMessage(undefined), found(RIM));
    expect(job.and(undo('m1')).state).toMatchObject({ status: 'open', title: 'Larkspur' });
  });

  it('closes no loop in the build order', () => {
    const link = (step: string, after: string, linked = true): JobCommand => ({
      type: 'link-step',
      step,
      after,
      linked,
    });
    const job = given(
      opened(),
      inMessage('m1'),
      link('fit-oil-pump', 'close-crankcases', false),
      inMessage('m2'),
      link('close-crankcases', 'fit-oil-pump'),
      inMessage(undefined),
      undo('m1'),
    );
    const after = (id: string) => job.state.steps.find((step) => step.id === id)?.after;
    expect([after('fit-oil-pump'), after('close-crankcases')].flat()).not.toEqual(
      expect.arrayContaining(['close-crankcases', 'fit-oil-pump']),
    );
    expect(after('fit-oil-pump')).toContain('close-crankcases');
  });

  it('is the same told event by event and told whole', () => {
    const job = given(opened());
    const long = job.and(
      inMessage('m1'),
      setUpAndRidden(job.state),
      inMessage('m2'),
      found(RIM),
      inMessage(undefined),
      undo('m1'),
      found(CHAIN),
    );
    expect(foldJob(long.world.events)).toEqual(long.state);
  });
});
