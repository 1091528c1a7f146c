import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { MessagesSaid } from '../../src/job/messages-said.js';
import { isSaid, withMessage } from '../../src/job/messages-said.js';

it('holds what a set of the same messages holds, in the order said, and leaves earlier states as they were', () => {
  const ids = fc.array(fc.integer({ min: 0, max: 400 }).map(String), { maxLength: 500 });
  fc.assert(
    fc.property(ids, (messages) => {
      const expected = new Set<string>();
      let said: MessagesSaid = [];
      for (const message of messages) {
        const before = said;
        const flat = before.flat();
        expect(isSaid(said, message)).toBe(expected.has(message));
        said = withMessage(said, message);
        expected.add(message);
        expect(before.flat()).toEqual(flat);
      }
      expect(said.flat()).toEqual([...expected]);
    }),
    { numRuns: 40 },
  );
});
