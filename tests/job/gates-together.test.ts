import { describe, expect, it } from 'vitest';
import { nextGate, onOffer } from '../../src/job/gates.js';
import type { JobCommand } from '../../src/job/commands.js';
import { GATES } from '../../src/trade/terms.js';
import { given, RULES } from '../support/given.js';
import {
  allSteps,
  back,
  found,
  holds,
  opened,
  ordered,
  pass,
  passedGates,
  pounds,
  sent,
  setUpAndRidden,
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

describe('gates together', () => {
  it('overlap: each can be passed while others are not', () => {
    for (const gate of ['parts-ordered', 'sublet-out'] as const) {
      expect(passedGates(given(opened(), pass(gate)).state)).toEqual([gate]);
    }
  });

  it('are offered where nothing blocks them and the work is that far', () => {
    const inspected = given(...STRIPPED, pass('stripped'));
    expect(onOffer(inspected.state, RULES)).toEqual(['inspected']);
    const further = inspected.and(pass('inspected'), ordered(CHAIN), sent(RIM, null));
    expect(onOffer(further.state, RULES)).toEqual(['parts-ordered', 'sublet-out']);
    expect(nextGate(further.state)).toBe('parts-ordered');
  });

  it('are passed once: passed again is refused, blocked is refused', () => {
    given(opened(), pass('stripped'))
      .when(pass('stripped'))
      .refusedFor({ why: 'gate-passed', gate: 'stripped' });
    given(...STRIPPED)
      .when(pass('sublet-out'))
      .refusedFor({ why: 'gate-blocked', gate: 'sublet-out' });
  });

  it('reopen exactly where a late finding breaks their condition', () => {
    const late = ready().when(
      found(RIM, { conditions: ['flaking'], remedy: 'send-out', processes: ['chrome'] }),
    );
    expect(late.events.flatMap(({ type, data }) => (type === 'gate-reopened' ? [data] : []))).toEqual([
      { gate: 'sublet-out' },
      { gate: 'reassembled' },
    ]);
    const seen = ready().when(found(RIM, { conditions: ['good'], remedy: 'keep' }));
    expect(seen.events.some(({ type }) => type === 'gate-reopened')).toBe(false);
    const check = ready().when(found(RIM, { remedy: 'check' }));
    expect(passedGates(check.state)).not.toContain('inspected');
    expect(passedGates(check.state)).toContain('reassembled');
  });

  it('are left alone by notes, prices, dates wanted and looks at what is fitted', () => {
    const quiet: JobCommand[] = [
      { type: 'keep-note', target: the('tank badge'), text: 't', attachments: [] },
      { type: 'price', target: RIM, cost: pounds(500) },
      { type: 'want-by', gate: null, date: '2026-06-01' },
      found(the('chain'), { readings: [{ quantity: 'length', value: 1, unit: 'in' }] }),
      back(RIM),
      { type: 'work-done', target: FOOTREST },
    ];
    for (const command of quiet) {
      expect(passedGates(ready().when(command).state), command.type).toEqual([...GATES]);
    }
  });

  it('once passed have no blockers', () => {
    const { state } = ready();
    expect(passedGates(state)).toEqual([...GATES]);
    for (const gate of GATES) expect(holds(state, gate)).toEqual([]);
  });
});

describe('opening part-way', () => {
  it.each(GATES.map((_, index) => GATES.slice(0, index + 1)))(
    'keeps passed what lay behind: %s … %s',
    (...passed) => {
      const job = given(opened({ passed: [...passed].filter((gate) => gate !== undefined) }));
      const after = job.and({ type: 'want-by', gate: null, date: '2026-06-01' });
      expect(passedGates(after.state)).toEqual(passed);
      expect(after.state.notices).toEqual([]);
    },
  );

  it('takes things first spoken of then to be on the machine', () => {
    const { state } = given(
      opened({ passed: GATES.slice(0, 5) }),
      found(the('footrest'), { conditions: ['good'], remedy: 'keep' }),
    );
    expect(passedGates(state)).toEqual(GATES.slice(0, 5));
  });
});
