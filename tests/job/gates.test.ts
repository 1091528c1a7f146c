import { describe, expect, it } from 'vitest';
import { blockersOf } from '../../src/job/blockers.js';
import { onOffer } from '../../src/job/gates.js';
import type { JobCommand } from '../../src/job/commands.js';
import { given, RULES } from '../support/given.js';
import {
  allSteps,
  answered,
  back,
  blocks,
  fitted,
  found,
  number,
  opened,
  ordered,
  pass,
  passedGates,
  pounds,
  sent,
  setUpAndRidden,
  step,
  the,
  tookOff,
} from './talk.js';

const RIM = the('wheel rim', 'front');
const CHAIN = the('chain');
const FOOTREST = the('footrest', 'left');

/** One thing of each kind of remedy, all in hand. */
const STRIPPED: JobCommand[] = [
  opened(),
  tookOff(RIM, { conditions: ['rusty'], remedy: 'send-out', processes: ['chrome'] }),
  tookOff(CHAIN, { conditions: ['stretched'], remedy: 'replace' }),
  tookOff(FOOTREST, { conditions: ['bent'], remedy: 'repair' }),
];

const ready = () => {
  const job = given(
    ...STRIPPED,
    pass('stripped'),
    pass('inspected'),
    ordered(CHAIN, 'harlow'),
    pass('parts-ordered'),
    sent(RIM, 'brook'),
    pass('sublet-out'),
    back(RIM),
    back(CHAIN),
    { type: 'work-done', target: FOOTREST },
  );
  return job.and(
    ...allSteps(job.state),
    pass('reassembled'),
    ...setUpAndRidden(job.state),
    pass('road-tested'),
  );
};

describe('stripped', () => {
  it('passes when the mechanic says so, whatever is on the list', () => {
    given(opened())
      .when(pass('stripped'))
      .then({ type: 'gate-passed', data: { gate: 'stripped' } }, 'notice-drafted');
  });

  it('is offered once something was taken off, never passed for them', () => {
    expect(onOffer(given(opened()).state, RULES)).toEqual([]);
    const { state } = given(opened(), tookOff(RIM));
    expect(onOffer(state, RULES)).toEqual(['stripped']);
    expect(passedGates(state)).toEqual([]);
  });

  it('is not reopened by anything found later', () => {
    const { state } = ready().and(found(the('mudguard', 'rear')), tookOff(number(1), { remedy: 'check' }));
    expect(state.gates.stripped.passed).toBe(true);
  });
});

describe('inspected', () => {
  it('is blocked while nothing is listed', () => {
    given(opened()).when(pass('inspected')).refusedFor({ why: 'gate-blocked', gate: 'inspected' });
    expect(blocks(given(opened()).state, 'inspected')).toEqual(['nothing-listed']);
  });

  it('wants a finding and a remedy of every item', () => {
    const unseen = given(opened(), tookOff(RIM));
    expect(blocks(unseen.state, 'inspected')).toEqual(['unseen 1']);
    const seen = unseen.and(found(RIM, { conditions: ['rusty'] }));
    expect(blocks(seen.state, 'inspected')).toEqual(['undecided 1']);
    const toCheck = seen.and(found(RIM, { remedy: 'check' }));
    expect(blocks(toCheck.state, 'inspected')).toEqual(['check-again 1']);
    const decided = toCheck.and(found(RIM, { remedy: 'clean' }));
    expect(blocks(decided.state, 'inspected')).toEqual([]);
  });

  it('waits for the owner where the work costs as much as the shop asks about', () => {
    const dear = given(opened(), found(RIM, { conditions: ['rusty'], remedy: 'send-out', cost: pounds(50) }));
    expect(blockersOf(dear.state, 'inspected', RULES)).toMatchObject([
      { kind: 'owner-yes', item: 1, holder: { who: 'owner' } },
    ]);
    expect(blocks(dear.and(answered('yes', 1)).state, 'inspected')).toEqual([]);
    const cheap = given(
      opened(),
      found(RIM, { conditions: ['rusty'], remedy: 'send-out', cost: pounds(49.99) }),
    );
    expect(blocks(cheap.state, 'inspected')).toEqual([]);
  });

  it('is reopened by a refusal of the owner, and free again with another remedy', () => {
    const passed = given(...STRIPPED, pass('inspected'));
    const outcome = passed.when(answered('no', 1));
    outcome.then('owner-answered', { type: 'gate-reopened', data: { gate: 'inspected' } }, 'notice-dropped');
    expect(blocks(outcome.state, 'inspected')).toEqual(['owner-said-no 1']);
    const again = passed.and(answered('no', 1), found(RIM, { remedy: 'clean' }));
    expect(blocks(again.state, 'inspected')).toEqual([]);
  });
});

describe('parts ordered', () => {
  it('is blocked by each thing to be replaced that is not ordered, and by nothing else', () => {
    expect(blocks(given(...STRIPPED).state, 'parts-ordered')).toEqual(['not-ordered 2']);
    expect(blocks(given(...STRIPPED, ordered(CHAIN)).state, 'parts-ordered')).toEqual([]);
  });

  it('holds of a part in hand that was never said to be ordered', () => {
    expect(blocks(given(...STRIPPED, back(CHAIN)).state, 'parts-ordered')).toEqual([]);
  });

  it('is reopened when a part comes wrong', () => {
    const job = given(...STRIPPED, ordered(CHAIN, 'harlow'), pass('parts-ordered'));
    const outcome = job.when(back(CHAIN, { outcome: 'refused' }));
    outcome.then(
      'line-returned',
      { type: 'gate-reopened', data: { gate: 'parts-ordered' } },
      'notice-dropped',
    );
    expect(blocks(outcome.state, 'parts-ordered')).toEqual(['not-ordered 2']);
  });

  it('asks for no part that the owner will not have', () => {
    expect(blocks(given(...STRIPPED, answered('no', 2)).state, 'parts-ordered')).toEqual([]);
  });
});

describe('sublet out', () => {
  it('is blocked by what is still here, and not by what is out or done', () => {
    expect(blocks(given(...STRIPPED).state, 'sublet-out')).toEqual(['still-here 1']);
    expect(blocks(given(...STRIPPED, sent(RIM, 'brook')).state, 'sublet-out')).toEqual([]);
    expect(blocks(given(...STRIPPED, sent(RIM, 'brook'), back(RIM)).state, 'sublet-out')).toEqual([]);
  });

  it('is reopened by work sent back badly done, until it has gone again', () => {
    const job = given(...STRIPPED, sent(RIM, 'brook'), pass('sublet-out'));
    const refused = job.when(back(RIM, { outcome: 'refused' }));
    expect(refused.events).toContainEqual(
      expect.objectContaining({ type: 'gate-reopened', data: { gate: 'sublet-out' } }),
    );
    expect(blocks(refused.state, 'sublet-out')).toEqual(['send-again 1']);
  });

  it('is not reopened where one message says that it came back bad and went again', () => {
    const outcome = given(...STRIPPED, sent(RIM, 'brook'), pass('sublet-out')).when(
      back(RIM, { outcome: 'refused' }),
      sent(RIM, 'brook'),
    );
    outcome.then('line-returned', 'line-opened');
    expect(outcome.state.gates['sublet-out'].passed).toBe(true);
  });
});

describe('reassembled', () => {
  it('is blocked by what is not here, not right and not done, with who holds it', () => {
    const { state } = given(...STRIPPED, ordered(CHAIN, 'harlow'), sent(RIM, 'brook'));
    const held = blockersOf(state, 'reassembled', RULES).filter(({ item }) => item !== null);
    expect(held).toHaveLength(3);
    expect(held).toContainEqual(
      expect.objectContaining({ kind: 'out', item: 1, holder: { who: 'supplier', supplier: 'brook' } }),
    );
    expect(held).toContainEqual(
      expect.objectContaining({ kind: 'on-order', item: 2, holder: { who: 'supplier', supplier: 'harlow' } }),
    );
    expect(held).toContainEqual(
      expect.objectContaining({ kind: 'work-undone', item: 3, holder: { who: 'shop' } }),
    );
  });

  it('says the day promised and since when a thing has been out', () => {
    const job = given(...STRIPPED, { ...sent(RIM, 'brook'), due: '2026-03-20' });
    const out = blockersOf(job.state, 'reassembled', RULES).find(({ kind }) => kind === 'out');
    expect(out).toMatchObject({
      due: '2026-03-20',
      since: job.world.events.find(({ type }) => type === 'line-opened')?.at,
    });
  });

  it('lists steps in build order, with the steps that each waits for', () => {
    const { state } = given(opened());
    const all = blockersOf(state, 'reassembled', RULES);
    expect(all.map(({ step: id }) => id)).toHaveLength(state.steps.length);
    const seen = new Set<string>();
    for (const { step: id, behind } of all) {
      expect(behind.every((each) => seen.has(each))).toBe(true);
      if (id !== null) seen.add(id);
    }
    expect(all.filter(({ kind }) => kind === 'to-fit').every(({ behind }) => behind.length === 0)).toBe(true);
  });

  it('is free once all steps are fitted, and things that no step names too', () => {
    const job = given(opened(), found(the('mudguard', 'front'), { remedy: 'keep' }));
    const built = job.and(...allSteps(job.state));
    expect(blocks(built.state, 'reassembled')).toEqual([]);
  });

  it('is reopened by a part taken off again, and by nothing but what belongs to it', () => {
    const outcome = ready().when(tookOff(FOOTREST));
    expect(outcome.events.filter(({ type }) => type === 'gate-reopened')).toEqual([
      expect.objectContaining({ data: { gate: 'reassembled' } }),
    ]);
    expect(blocks(outcome.state, 'reassembled')).toEqual(['item-to-fit 3']);
    expect(blocks(ready().and(tookOff(FOOTREST), fitted(FOOTREST)).state, 'reassembled')).toEqual([]);
  });

  it('is reopened by a step taken apart', () => {
    const outcome = ready().when({ type: 'undo-step', step: 'fit-footrests' });
    outcome.then(
      'step-undone',
      'item-taken-off',
      { type: 'gate-reopened', data: { gate: 'reassembled' } },
      'notice-dropped',
    );
    expect(blocks(outcome.state, 'reassembled')).toEqual(['to-fit']);
    expect(
      blocks(
        ready().and({ type: 'undo-step', step: 'fit-footrests' }, step('fit-footrests')).state,
        'reassembled',
      ),
    ).toEqual([]);
  });
});

describe('road tested', () => {
  it('wants the checks, a ride that passed, and no fault open', () => {
    const job = given(opened());
    const undone = job.state.checks.map(() => 'check-undone');
    expect(undone.length).toBeGreaterThan(5);
    expect(blocks(job.state, 'road-tested')).toEqual([...undone, 'no-road-test']);
    const ridden = job.and(...setUpAndRidden(job.state));
    expect(blocks(ridden.state, 'road-tested')).toEqual([]);
    const faulty = ridden.and({ type: 'find-fault', target: null, text: 't' });
    expect(blocks(faulty.state, 'road-tested')).toEqual(['fault']);
    expect(blocks(faulty.and({ type: 'clear-fault', fault: 1 }).state, 'road-tested')).toEqual([]);
  });

  it('wants another ride after one that failed, once its faults are put right', () => {
    const job = given(opened());
    const failed = job.and(...setUpAndRidden(job.state), {
      type: 'road-test',
      outcome: 'pass',
      text: null,
      faults: ['a', 'b'],
    });
    expect(failed.state.roadTest?.outcome).toBe('fail');
    expect(blocks(failed.state, 'road-tested')).toEqual(['fault', 'fault', 'road-test-failed']);
    const cleared = failed.and({ type: 'clear-fault', fault: 1 }, { type: 'clear-fault', fault: 2 });
    expect(blocks(cleared.state, 'road-tested')).toEqual(['road-test-failed']);
  });

  it('is all that a fault reopens, even one of a thing that was never spoken of', () => {
    const outcome = ready().when({ type: 'find-fault', target: the('clutch'), text: 't' });
    outcome.then(
      { type: 'fault-found', data: { fault: 1, item: null } },
      { type: 'gate-reopened', data: { gate: 'road-tested' } },
      'notice-dropped',
    );
  });
});
