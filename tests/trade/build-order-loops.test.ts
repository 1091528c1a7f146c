import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loopIn } from '../../src/trade/build-orders/problems.js';

const SIZE = 8;
const links = fc.array(fc.tuple(fc.nat(SIZE - 1), fc.nat(SIZE - 1)), { maxLength: 20 });
type Link = [step: number, after: number];
const stepsOf = (pairs: readonly Link[]) =>
  Array.from({ length: SIZE }, (_, step) => ({
    id: `s${step}`,
    after: [...new Set(pairs.filter(([one]) => one === step).map(([, after]) => `s${after}`))],
  }));

/** Kahn 1962: a graph has no loop when taking away what waits for nothing, again and again, empties it. */
const canBeBuilt = (steps: readonly { id: string; after: string[] }[]): boolean => {
  const left = new Map(steps.map((step) => [step.id, step.after]));
  for (;;) {
    const free = [...left].filter(([, after]) => after.every((id) => !left.has(id))).map(([id]) => id);
    if (free.length === 0) return left.size === 0;
    for (const id of free) left.delete(id);
  }
};

describe('loops in a build order', () => {
  it('are found exactly where the steps cannot all be built', () => {
    fc.assert(
      fc.property(links, (pairs) => {
        const steps = stepsOf(pairs);
        expect(loopIn(steps) === null).toBe(canBeBuilt(steps));
      }),
    );
  });

  it('are named link by link, each step once, the first again at the end', () => {
    fc.assert(
      fc.property(links, (pairs) => {
        const steps = stepsOf(pairs);
        const loop = loopIn(steps);
        if (loop === null) return;
        expect(loop.at(-1)).toBe(loop[0]);
        expect(new Set(loop).size).toBe(loop.length - 1);
        loop.slice(1).forEach((after, index) => {
          expect(steps.find(({ id }) => id === loop[index])?.after).toContain(after);
        });
      }),
    );
  });
});
