import { describe, expect, it } from 'vitest';
import { notAsOften, passedTwice } from '../../config/year/invariants/said.js';
import type { Recorded } from '../../src/record/types.js';

const message = 'mechanic-1-7';
const recorded = (type: string, data: unknown = {}, from = message): Recorded => ({
  ...{ type, schema: 1, data, id: 'e', version: 1, at: 1, by: 'mechanic-1', command: 'c' },
  message: from,
});

describe('everything that was said', () => {
  it.each([
    ['new job: Wexcombe 350 single', ['job-opened']],
    [
      'on the Wexcombe: handlebar rusty, send it for chrome, 90 quid',
      ['finding-logged', 'remedy-decided', 'cost-noted'],
    ],
    ['on the Wexcombe: sent the handlebar to Brask Plating, due 20 March', ['line-opened']],
    ['on the Wexcombe: handlebar back from Brask Plating, lovely job', ['line-returned']],
    ['on the Wexcombe: owner agreed to all of it', ['owner-answered']],
    ['on the Wexcombe: carburettor done', ['work-done']],
    ['on the Wexcombe: road tested, all good', ['road-tested']],
    ['on the Wexcombe: handed over', ['handed-over']],
  ])('stands once: “%s”', (text, types) => {
    const events = types.map((type) => recorded(type));
    const said = [{ message, text }];
    expect(notAsOften(said, events)).toEqual([]);
    expect(notAsOften(said, [])).toHaveLength(types.length);
    expect(notAsOften(said, [...events, ...events])).toHaveLength(types.length);
    expect(notAsOften([{ message: 'mechanic-2-7', text }], events)).toHaveLength(types.length);
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
