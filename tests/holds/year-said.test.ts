import { describe, expect, it } from 'vitest';
import { notLeft } from '../../config/year/invariants/acknowledged.js';
import { passedTwice } from '../../config/year/invariants/record.js';
import { SAYINGS } from '../../config/year/invariants/sayings.js';
import type { Act } from '../../config/year/journal.js';
import type { Recorded } from '../../src/record/types.js';

const message = 'mechanic-1-7';
const recorded = (type: string, data: unknown = {}, from = message): Recorded => ({
  ...{ type, schema: 1, data, id: 'e', version: 1, at: 1, by: 'mechanic-1', command: 'c' },
  message: from,
});
const act = (text: string, over: Partial<Act> = {}): Act => ({
  ...{ kind: 'act', at: 1, chat: 1001, update: 7, how: 'message', message: 7, text },
  ...over,
});
const amiss = (text: string, types: readonly string[], over: Partial<Act> = {}): string[] =>
  notLeft([{ act: act(text, over), left: types.map((type) => recorded(type)) }], SAYINGS);

const FOUND = ['item-listed', 'finding-logged', 'remedy-decided'];
const often = (type: string, times: number): string[] => Array.from({ length: times }, () => type);

describe('everything that was said', () => {
  it.each([
    ['supplier Brask Plating, chrome, 01632 960100', ['person-added', 'supplier-described']],
    ['on the Wexcombe: handlebar rusty, send it for chrome, 90 quid', [...FOUND, 'cost-noted']],
    ['on the Wexcombe: left gaiter torn, straighten it', FOUND],
    ['not the front, the rear', ['message-undone', ...FOUND]],
    ['on the Wexcombe: handlebar: just clean it then', ['finding-logged', 'remedy-decided']],
    ['on the Wexcombe: sent the handlebar to Brask Plating, due 20 March', ['line-opened']],
    ['on the Wexcombe: handlebar back from Brask Plating, lovely job', ['line-returned']],
    ['on the Wexcombe: handlebar back from Brask Plating, not done', ['line-returned']],
    ['on the Wexcombe: three of the four engine plates back from Brask Enamels', ['line-returned']],
    ['on the Wexcombe: owner agreed to all of it', ['owner-answered']],
    ['on the Wexcombe: want it reassembled by 4 May', ['wanted-by-set']],
    ['on the Wexcombe: carburettor done', ['work-done']],
    ['on the Wexcombe: steps 1 to 59 done', often('step-fitted', 59)],
    ['on the Wexcombe: checks 1 to 27 done', often('check-done', 27)],
    ['on the Wexcombe: road tested, all good', ['road-tested']],
    ['on the Wexcombe: road tested again, all good now', ['road-tested']],
    ['on the Wexcombe: road test: clutch slipping', ['road-tested', 'fault-found']],
    ['on the Wexcombe: fault: horn does nothing', ['fault-found']],
    ['on the Wexcombe: fault 2 fixed', ['fault-cleared']],
    ['on the Wexcombe: handed over', ['handed-over', 'job-closed']],
    ['Yes to all of it, but not the handlebar please', ['message-received', ...often('owner-answered', 2)]],
    ['When will it be ready?', ['message-received']],
    ['Sorry, running late: it will be 3 March now', ['message-received', 'line-answered', 'promise-made']],
    ['what’s overdue?', []],
  ])('stands as what it is: “%s”', (text, types) => {
    expect(amiss(text, types)).toEqual([]);
    const kinds = new Set(types).size;
    expect(amiss(text, [])).toHaveLength(kinds);
    expect(amiss(text, [...types, ...types])).toHaveLength(kinds);
    expect(amiss(text, [...types, 'caution-given'])).toEqual([]);
    expect(amiss(text, [...types, 'item-trued'])).toHaveLength(1);
  });

  it('takes back, once edited, what it was first', () => {
    const text = 'on the Wexcombe: right silencer bracket bent, straighten it';
    expect(amiss(text, ['message-undone', ...FOUND], { how: 'edit' })).toEqual([]);
    expect(amiss(text, FOUND, { how: 'edit' })).toHaveLength(1);
    expect(amiss('anything', [], { how: 'press' })).toEqual([]);
  });

  it('is of a kind that the table has, and stands as of its own message', () => {
    expect(amiss('on the Wexcombe: whistled a tune', [])).toHaveLength(1);
    expect(amiss('on the Wexcombe: carburettor done', ['work-done'], { message: 17 })).toHaveLength(1);
    const others = recorded('work-done', {}, 'mechanic-2-7');
    expect(
      notLeft([{ act: act('on the Wexcombe: carburettor done'), left: [others] }], SAYINGS),
    ).toHaveLength(1);
    const right = [
      recorded('message-undone', { message }, 'mechanic-1-17'),
      ...FOUND.map((type) => recorded(type)),
    ];
    expect(notLeft([{ act: act('not the front, the rear', { message: 17 }), left: right }], SAYINGS)).toEqual(
      [],
    );
  });
});

it('sees a gate passed twice, unless it opened again or the first was undone', () => {
  const pass = recorded('gate-passed', { gate: 'inspected' });
  const again = recorded('gate-passed', { gate: 'inspected' }, 'mechanic-1-8');
  expect(passedTwice('Wexcombe', [pass, again])).toHaveLength(1);
  expect(
    passedTwice('Wexcombe', [pass, recorded('gate-reopened', { gate: 'inspected' }, 'm'), again]),
  ).toEqual([]);
  const undone = recorded('message-undone', { message }, 'mechanic-1-9');
  expect(passedTwice('Wexcombe', [pass, undone, again])).toEqual([]);
});
