import { describe, expect, test } from 'vitest';
import { expand, phrases } from '../../src/trade/lexicon/phrases.js';
import { CONDITIONS, PLACES, PROCESSES, REMEDIES } from '../../src/trade/terms.js';

describe('the phrases', () => {
  test.each([
    ['conditions', CONDITIONS],
    ['remedies', REMEDIES],
    ['processes', PROCESSES],
    ['places', PLACES],
  ] as const)('%s: every term of the trade can be said', (file, terms) => {
    expect([...new Set(phrases[file].map((entry) => entry.means))].sort()).toEqual([...terms].sort());
  });

  test('a pattern stands for all its choices', () => {
    expect(expand('will do (again)')).toEqual(['will do', 'will do again']);
    expect(expand('snapped off|in_half')).toEqual(['snapped off', 'snapped in half']);
  });
});
