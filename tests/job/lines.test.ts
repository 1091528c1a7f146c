import { describe, expect, it } from 'vitest';
import { given } from '../support/given.js';
import {
  back,
  found,
  holds,
  itemOf,
  lineOf,
  NOTHING,
  number,
  opened,
  ordered,
  pounds,
  promised,
  sent,
  several,
  the,
} from './talk.js';

const RIM = the('wheel rim', 'front');

describe('sending and ordering', () => {
  it('settles the remedy of a thing never spoken of', () => {
    given(opened())
      .when(sent(RIM, 'brook', 'chrome'))
      .then(
        'item-listed',
        { type: 'remedy-decided', data: { remedy: 'send-out', processes: ['chrome'], supplier: 'brook' } },
        {
          type: 'line-opened',
          data: { kind: 'sublet', supplier: 'brook', processes: ['chrome'], on: '2026-03-02' },
        },
      );
  });

  it('goes to whom it was meant for, with the processes decided, where neither is said', () => {
    const job = given(opened(), found(RIM, { remedy: 'send-out', processes: ['chrome'], supplier: 'brook' }));
    job
      .when(sent(number(1), null))
      .then({ type: 'line-opened', data: { supplier: 'brook', processes: ['chrome'] } });
  });

  it('changes a remedy that was another', () => {
    const job = given(opened(), found(RIM, { remedy: 'repair' }));
    expect(itemOf(job.and(ordered(RIM)).state, 1).remedy).toBe('replace');
  });

  it('said again opens no second line, and takes the new date and price', () => {
    const job = given(opened(), ordered(the('chain'), 'harlow'));
    job.when({ ...ordered(the('chain'), 'harlow'), due: '2026-03-09', cost: pounds(40) }).then('cost-noted', {
      type: 'promise-made',
      data: { due: '2026-03-09', by: 'harlow' },
    });
    job.when(ordered(the('chain'))).then();
  });

  it('said again with a name says who has it', () => {
    const job = given(opened(), sent(RIM, null), sent(RIM, 'brook'));
    expect(Object.values(job.state.lines).map(({ supplier }) => supplier)).toEqual(['brook']);
  });

  it('ordered of another supplier too is a second order', () => {
    const { state } = given(opened(), ordered(the('chain'), 'harlow'), ordered(the('chain'), 'marsh'));
    expect(Object.values(state.lines).map(({ supplier, status }) => [supplier, status])).toEqual([
      ['harlow', 'open'],
      ['marsh', 'open'],
    ]);
  });

  it('sent on from one supplier to the next is done at the first', () => {
    const job = given(
      opened(),
      found(RIM, { remedy: 'send-out', processes: ['blast', 'paint'] }),
      sent(RIM, 'grit', 'blast'),
    );
    const moved = job.and(sent(RIM, 'marsh', 'paint'));
    expect(lineOf(moved.state, 1, 0).status).toBe('back');
    expect(lineOf(moved.state, 1, 1)).toMatchObject({
      supplier: 'marsh',
      status: 'open',
      processes: ['paint'],
    });
    expect(itemOf(moved.and(back(RIM)).state, 1)).toMatchObject({ returned: true });
  });

  it('keeps some at one place and some at another side by side', () => {
    const job = given(
      opened(),
      found(several(4, 'valve'), { remedy: 'send-out' }),
      sent(several(2, 'valve'), 'brook'),
      sent(several(2, 'valve'), 'marsh'),
    );
    expect(
      Object.values(job.state.lines).map(({ supplier, status, count }) => [supplier, status, count]),
    ).toEqual([
      ['brook', 'open', 2],
      ['marsh', 'open', 2],
    ]);
    const half = job.and(back(the('valve'), { supplier: 'brook' }));
    expect(holds(half.state, 'reassembled')).toEqual(['out 1']);
    expect(lineOf(half.state, 1, 1).status).toBe('open');
    expect(holds(half.and(back(the('valve'))).state, 'reassembled')).toEqual([]);
  });

  it('after an order sends the old one out as well, and waits for both', () => {
    const job = given(opened(), ordered(the('footrest'), 'harlow'), sent(the('footrest'), 'brook', 'weld'));
    expect(itemOf(job.state, 1).remedy).toBe('send-out');
    const one = job.and(back(the('footrest'), { supplier: 'brook' }));
    expect(lineOf(one.state, 1, 0).status).toBe('open');
    expect(holds(one.state, 'reassembled')).toEqual(['on-order 1']);
    const other = job.and(back(the('footrest'), { supplier: 'harlow' }));
    expect(holds(other.state, 'reassembled')).toEqual(['out 1']);
    expect(itemOf(other.state, 1).returned).toBe(false);
  });

  it('gives lines ids that never come again, whatever is undone', () => {
    const first = given(opened(), { set: { message: 'm1' } }, sent(RIM, 'brook'));
    const [id] = Object.keys(first.state.lines);
    const again = first.and(
      { set: { message: undefined } },
      { type: 'undo', message: 'm1' },
      sent(RIM, 'brook'),
    );
    expect(Object.keys(again.state.lines)).toHaveLength(1);
    expect(Object.keys(again.state.lines)).not.toContain(id);
  });
});

describe('promises', () => {
  it('are for the open lines of the item, or of all that the supplier has', () => {
    const job = given(
      opened(),
      sent(RIM, 'brook'),
      sent(the('brake lever'), 'brook'),
      sent(the('seat'), 'marsh'),
    );
    const { state } = job.and(promised(NOTHING, '2026-03-13', 'brook'));
    expect(Object.values(state.lines).map(({ promises }) => promises.at(-1)?.due)).toEqual([
      '2026-03-13',
      '2026-03-13',
      undefined,
    ]);
  });

  it('are for all of several with the name that are out', () => {
    const job = given(
      opened(),
      sent(the('wheel rim', 'front'), 'brook'),
      sent(the('wheel rim', 'rear'), 'brook'),
    );
    job.when(promised(the('wheel rim'), '2026-03-13')).then('promise-made', 'promise-made');
  });

  it('of a thing never said to have gone open its line', () => {
    given(opened())
      .when(promised(the('brake lever'), '2026-03-13', 'brook'))
      .then('item-listed', 'remedy-decided', {
        type: 'line-opened',
        data: { kind: 'sublet', due: '2026-03-13', supplier: 'brook' },
      });
    const toReplace = given(opened(), found(the('chain'), { remedy: 'replace' }));
    toReplace
      .when(promised(the('chain'), '2026-03-13'))
      .then({ type: 'line-opened', data: { kind: 'order' } });
  });

  it('of what nobody outside has are none', () => {
    const job = given(opened(), found(the('footrest'), { remedy: 'repair' }));
    job.when(promised(the('footrest'), '2026-03-13')).refusedFor({ why: 'nothing-out', supplier: null });
    job.when(promised(NOTHING, '2026-03-13', 'brook')).refusedFor({ why: 'nothing-out', supplier: 'brook' });
    job.when(promised(number(9), '2026-03-13')).refusedFor({ why: 'no-such-item', item: 9 });
  });

  it('of a supplier are taken while the line is out, and not after', () => {
    const job = given(opened(), sent(RIM, 'brook'));
    const { id } = lineOf(job.state, 1);
    const due = { type: 'promise-line', line: id, due: '2026-03-13', by: 'brook' } as const;
    job.when(due).then('promise-made');
    job.and(back(RIM)).when(due).then();
    job.when({ ...due, line: 'line-99' }).then();
  });

  it('answered are marked with the words, known lines alone', () => {
    const job = given(opened(), sent(RIM, 'brook'));
    const { id } = lineOf(job.state, 1);
    const answer = job.when({ type: 'answer-lines', lines: [id, 'line-99'], text: 't', ready: false });
    answer.then({ type: 'line-answered', data: { line: id, text: 't' } });
    expect(lineOf(answer.state, 1).answer).toBe('t');
  });
});
