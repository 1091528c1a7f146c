import { describe, expect, it } from 'vitest';
import type { JobCommand } from '../../src/job/commands.js';
import { given, on } from '../support/given.js';
import { back, found, holds, itemOf, lineOf, NOTHING, number, opened, sent, several, the } from './talk.js';

const RIM = the('wheel rim', 'front');
const SPOKES = several(6, 'spoke');

const spokesOut = (...more: JobCommand[]) =>
  given(opened(), { ...sent(SPOKES, 'brook', 'zinc'), due: '2026-03-20' }, ...more);

describe('returns', () => {
  it('in parts are counted until all have come', () => {
    const part = spokesOut(back(the('spoke'), { outcome: 'part', count: 4 }));
    expect(lineOf(part.state, 1)).toMatchObject({ status: 'part', countBack: 4 });
    expect(holds(part.state, 'reassembled')).toEqual(['out 1']);
    part
      .when(back(the('spoke'), { outcome: 'part', count: 1 }))
      .then({ type: 'line-returned', data: { outcome: 'part' } });
    for (const outcome of ['part', 'all'] as const) {
      const all = part.when(back(the('spoke'), { outcome, count: 2 }));
      all.then({ type: 'line-returned', data: { outcome: 'all' } });
      expect(lineOf(all.state, 1)).toMatchObject({ status: 'back', countBack: 6 });
    }
  });

  it('of fewer than went are a part, whatever the word was', () => {
    spokesOut()
      .when(back(the('spoke'), { outcome: 'all', count: 4 }))
      .then({ type: 'line-returned', data: { outcome: 'part' } });
  });

  it('without a number are as they were said', () => {
    const { state } = spokesOut(back(the('spoke')));
    expect(lineOf(state, 1)).toMatchObject({ status: 'back', countBack: 6 });
  });

  it('of none are no return', () => {
    spokesOut()
      .when(back(the('spoke'), { count: 0, outcome: 'part', text: 't' }))
      .then({ type: 'note-kept', data: { text: 't' } });
  });

  it('refused go again, and are done when they are back right', () => {
    const refused = given(opened(), sent(RIM, 'brook', 'chrome'), back(RIM, { outcome: 'refused' }));
    expect(holds(refused.state, 'reassembled')).toEqual(['send-again 1']);
    const again = refused.and(on('2026-03-09'), sent(RIM, 'brook'));
    expect(lineOf(again.state, 1, 1)).toMatchObject({
      processes: ['chrome'],
      openedOn: '2026-03-09',
      status: 'open',
    });
    expect(holds(again.state, 'reassembled')).toEqual(['out 1']);
    expect(holds(again.and(back(RIM)).state, 'reassembled')).toEqual([]);
  });

  it('refused in part send again only what is not done', () => {
    const refused = spokesOut(
      back(the('spoke'), { outcome: 'part', count: 4 }),
      back(the('spoke'), { outcome: 'refused', count: 2 }),
    );
    const again = refused.and(sent(the('spoke'), 'brook'));
    expect(lineOf(again.state, 1, 1).count).toBe(2);
    again.when(back(the('spoke'), { count: 2 })).then({ type: 'line-returned', data: { outcome: 'all' } });
  });

  it('found bad after all are refused, even of a thing fitted', () => {
    const job = given(opened(), sent(RIM, 'brook', 'chrome'), back(RIM));
    const refused = job.when(back(RIM, { outcome: 'refused' }));
    refused.then({ type: 'line-returned', data: { outcome: 'refused' } });
    expect(itemOf(refused.state, 1)).toMatchObject({ returned: false, processesDone: [] });
    expect(holds(refused.state, 'reassembled')).toEqual(['send-again 1']);
  });

  it('said twice are one', () => {
    given(opened(), sent(RIM, 'brook'), back(RIM))
      .when(back(RIM, { text: 't' }))
      .then({ type: 'note-kept', data: { item: 1, text: 't' } });
    given(opened(), sent(RIM, 'brook'), back(RIM, { outcome: 'refused' }))
      .when(back(RIM, { outcome: 'refused', text: null }))
      .then();
  });

  it('never announced are taken as gone and back', () => {
    given(opened())
      .when(back(the('chain'), { supplier: 'harlow' }))
      .then(
        'item-listed',
        'remedy-decided',
        { type: 'line-opened', data: { kind: 'order' } },
        { type: 'line-returned', data: { outcome: 'all' } },
      );
    const listed = given(opened(), found(the('magneto'), { conditions: ['weak'] }));
    const rewound = listed.when(back(the('magneto'), { supplier: 'marsh' }));
    rewound.then(
      'remedy-decided',
      { type: 'line-opened', data: { kind: 'sublet', supplier: 'marsh' } },
      'line-returned',
    );
    expect(holds(rewound.state, 'reassembled')).toEqual([]);
    expect(itemOf(rewound.state, 1).remedy).toBe('send-out');
  });

  it('never announced can be in part or refused', () => {
    const part = given(opened(), back(several(6, 'spoke'), { outcome: 'part', count: 4 }));
    expect(lineOf(part.state, 1).status).toBe('part');
    const refused = given(opened(), found(RIM, { remedy: 'send-out' }), back(RIM, { outcome: 'refused' }));
    expect(holds(refused.state, 'reassembled')).toEqual(['send-again 1']);
  });

  it('of all that a supplier has need no names', () => {
    const job = given(
      opened(),
      sent(RIM, 'brook'),
      sent(the('brake lever'), 'brook'),
      sent(the('seat'), 'marsh'),
    );
    const { state } = job.and(back(NOTHING, { supplier: 'brook' }));
    expect(Object.values(state.lines).map(({ status }) => status)).toEqual(['back', 'back', 'open']);
    job
      .when(back(NOTHING, { supplier: 'brook', count: 1 }))
      .refusedFor({ why: 'which-item', candidates: [1, 2] });
    job.when(back(NOTHING, { supplier: 'harlow' })).refusedFor({ why: 'nothing-out', supplier: 'harlow' });
    job.when(back(NOTHING)).refusedFor({ why: 'nothing-out', supplier: null });
  });

  it('of one of several ask which, unless only one is out, or both are meant', () => {
    const job = given(
      opened(),
      sent(the('wheel rim', 'front'), 'brook'),
      sent(the('wheel rim', 'rear'), 'marsh'),
    );
    job.when(back(the('wheel rim'))).refusedFor({ why: 'which-item', candidates: [1, 2] });
    job
      .when(back(the('wheel rim'), { supplier: 'marsh' }))
      .then({ type: 'line-returned', data: { line: lineOf(job.state, 2).id } });
    job.when(back(several(2, 'wheel rim'), { count: 2 })).then('line-returned', 'line-returned');
    job
      .and(back(number(1)))
      .when(back(the('wheel rim')))
      .then({ type: 'line-returned', data: { line: lineOf(job.state, 2).id } });
  });

  it('of processes done one by one at different suppliers are all wanted', () => {
    const job = given(
      opened(),
      found(the('petrol tank'), { remedy: 'send-out', processes: ['blast', 'paint', 'line-tank'] }),
    );
    const blasted = job.and(sent(number(1), 'grit', 'blast'), back(number(1)));
    expect(itemOf(blasted.state, 1)).toMatchObject({ processesDone: ['blast'], returned: false });
    expect(holds(blasted.state, 'sublet-out')).toEqual(['still-here 1']);
    const painted = blasted.and(sent(number(1), 'marsh', 'paint'), back(number(1)));
    expect(itemOf(painted.state, 1).returned).toBe(false);
    const lined = painted.when(sent(number(1), 'brook'));
    lined.then({ type: 'line-opened', data: { processes: ['line-tank'] } });
    expect(itemOf(painted.and(sent(number(1), 'brook'), back(number(1))).state, 1).returned).toBe(true);
  });

  it('of the wrong kind settle nothing', () => {
    const job = given(
      opened(),
      sent(RIM, 'brook', 'chrome'),
      found(RIM, { conditions: ['bent'], remedy: 'replace' }),
    );
    expect(holds(job.state, 'reassembled')).toEqual(['out 1']);
    const here = job.and(back(RIM));
    expect(holds(here.state, 'reassembled')).toEqual(['not-ordered 1']);
    expect(holds(here.state, 'parts-ordered')).toEqual(['not-ordered 1']);
  });
});
