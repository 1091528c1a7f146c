import { describe, expect, it } from 'vitest';
import type { Instruction } from '../../src/hearing/instructions/instruction.js';
import { readInstruction } from '../../src/hearing/instructions/read-instruction.js';

const known = {
  ...{
    suppliers: [{ name: 'Tansy Enamels' }, { name: 'Lonny’s' }],
    machines: [{ name: 'Ostrel' }],
    items: [],
  },
  owners: [{ name: 'Mrs Dale' }],
};
const read = (text: string): Instruction | null => readInstruction(text, { today: '2026-07-01', known });

// How work and days are told of is common practice, no source.
describe('talk that begins or ends like an instruction', () => {
  it.each([
    'sent the rims away on Monday',
    'tank away tomorrow',
    'sent the tank away for a fortnight',
    'throttle stuck shut on Monday',
    'chroming away on Monday',
    'closed the crankcases on Friday',
  ])('closes nobody: “%s”', (text) => expect(read(text)?.kind).not.toBe('closed'));

  it.each([
    ['closed 24 December to 2 January', null],
    ['I’m away next week', 'i'],
    ['we’re away next week', null],
    ['Tansy’s shut the first two weeks of August', 'Tansy'],
    ['Lonny’s closed on Friday', 'Lonny'],
    ['the plater is closed on Friday', 'plater'],
    ['Joss is on holiday 3 to 7 August', 'Joss'],
  ])('and one that is: “%s”', (text, who) => expect(read(text)).toMatchObject({ kind: 'closed', who }));

  it.each([
    'rear wheel wants trued',
    'frame should be welded up',
    'petrol tank to be brazed up',
    'valves to be lapped in',
    'cylinder head must be dressed',
    'petrol tank needs fixed',
    'magneto badly soldered',
  ])('is no work done: “%s”', (text) => expect(read(text)?.kind).not.toBe('work-done'));

  it('is work done where it says so', () => {
    expect(read('rear wheel trued')).toMatchObject({ kind: 'work-done', part: 'wheel' });
    expect(read('frame welded up')).toMatchObject({ kind: 'work-done', part: 'frame' });
  });

  it.each(['what have I got so far?', 'what’s on the list?', 'read me the list'])(
    'asks for the list: “%s”',
    (text) => expect(read(text)).toEqual({ kind: 'show-list' }),
  );

  it.each([
    'ask Mrs Dale for a yes on 12',
    'ask Mrs Dale for a yes to 12',
    'ask Mrs Dale if that’s all right: 12',
  ])('asks the owner: “%s”', (text) => expect(read(text)).toEqual({ kind: 'ask-owner', items: [12] }));
});
