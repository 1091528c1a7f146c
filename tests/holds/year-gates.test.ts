import { describe, expect, it } from 'vitest';
import { inTheWay, passedBy, passedInTheWay } from '../../config/year/invariants/gate-rules.js';
import type { Note } from '../../config/year/notes.js';
import type { RecordedJobEvent } from '../../src/job/evolve.js';
import { GATES } from '../../src/trade/terms.js';

const of = { at: 1, job: 'Wexcombe' };
const bar = { ...of, part: 'handlebar', supplier: 'Brask Plating' };
const chain = { ...of, part: 'primary chain', supplier: 'Ludmere Spares' };
const history: Note[] = [
  { ...of, what: 'found', part: 'handlebar', wants: 'sent', cost: 90 },
  { ...of, what: 'found', part: 'primary chain', wants: 'ordered', cost: 30 },
  { ...of, what: 'found', part: 'carburettor', wants: 'done', cost: 0 },
  { ...of, what: 'agreed' },
  { ...bar, what: 'out', kind: 'sent', promised: '2026-03-20' },
  { ...chain, what: 'out', kind: 'ordered', promised: '2026-03-20' },
  { ...bar, what: 'back', refused: false },
  { ...chain, what: 'back', refused: false },
  { ...of, what: 'worked', part: 'carburettor' },
  { ...of, what: 'built' },
  { ...of, what: 'checked' },
  { ...of, what: 'ridden', passed: true },
];
const without = (...left: number[]): Note[] => history.filter((_, index) => !left.includes(index));

describe('what is in a gate’s way, by what the shop knows', () => {
  it('is nothing where all was done', () => {
    expect(GATES.map((gate) => inTheWay(gate, history))).toEqual(GATES.map(() => null));
  });

  it.each([
    ['inspected', 'what the owner has not agreed to', without(3)],
    ['inspected', 'that nothing was looked at', []],
    ['parts-ordered', 'what was never ordered', without(5, 7)],
    ['sublet-out', 'what never went', without(4, 6)],
    ['sublet-out', 'what was refused', [...history, { ...bar, what: 'back', refused: true }]],
    ['reassembled', 'what is still out', without(6)],
    ['reassembled', 'what is not done at the bench', without(8)],
    ['reassembled', 'steps not done', without(9)],
    ['road-tested', 'checks not done', without(10)],
    ['road-tested', 'no ride', without(11)],
    ['road-tested', 'a ride that failed', [...history, { ...of, what: 'ridden', passed: false }]],
  ] as const)('of %s: %s', (gate, _what, notes) => {
    expect(inTheWay(gate, notes)).not.toBeNull();
  });
});

it('sees a gate that was passed before what it waits for was told', () => {
  const event = { type: 'gate-passed', data: { gate: 'reassembled' }, version: 9, at: 5 } as RecordedJobEvent;
  const press = { job: '1', gate: 'reassembled', at: 5 } as const;
  const job = { job: '1', title: 'Wexcombe' };
  const early = passedBy(job, [{ ...press, after: 9 }], [event], 0);
  expect(passedInTheWay(early, history)).toHaveLength(1);
  expect(passedInTheWay(passedBy(job, [{ ...press, after: 10 }], [event], 0), history)).toEqual([]);
  expect(passedBy(job, [{ ...press, after: 9 }], [event], 9)).toEqual([]);
});
