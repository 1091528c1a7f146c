import { expect, it } from 'vitest';
import { agreement } from '../../../workers/agreement.js';

it('is surest of the words that the rivals have at the same place', () => {
  const heard = agreement(
    ['the', 'fork', 'is', 'bent'],
    [
      ['the', 'fork', 'is', 'bent'],
      ['the', 'fort', 'is', 'bent'],
      ['fork', 'is', 'sent'],
      ['a', 'the', 'cork', 'is', 'bent'],
    ],
  );
  expect(heard.map(({ confidence }) => confidence)).toEqual([0.75, 0.5, 1, 0.75]);
});

it('is sure where there are no rivals', () => {
  expect(agreement(['tank'], [[]])).toEqual([{ word: 'tank', confidence: 1 }]);
});
