import fc from 'fast-check';
import { expect, it, test } from 'vitest';
import { machinesNamed } from '../../src/hearing/machines-named.js';

// Invented machines and people.
const TITLES = ['Lark', 'Larkspur 350 single', 'Mrs Dale’s Ketterby', 'Mr Quill’s Ketterby', 'Thistle Ace'];

it.each<[string, number[]]>([
  ['the Lark rims are ready', [0]],
  ['the Larkspur 350 single rims are ready', [1]],
  ['the larkspur’s rims are ready', [1]],
  ['Thistle and Larkspur both Friday', [1, 4]],
  ['I’ll place the skylark order on Friday', []],
  ['the single ones on Friday', []],
  ['Ketterby tank by Friday', [2, 3]],
  ['Mrs Dale’s Ketterby tank by Friday', [2]],
  ['Dale rang', []],
])('of “%s” the machines are %j', (text, named) => {
  expect(machinesNamed(text, TITLES)).toEqual(named);
});

test('a title within a longer word is never one', () => {
  const letter = fc.constantFrom('a', 'e', 'n', 's', 't');
  fc.assert(
    fc.property(fc.constantFrom('Lark', 'Ace'), letter, letter, (title, before, after) => {
      expect(machinesNamed(`the ${before}${title}${after} on Friday`, [title])).toEqual([]);
      expect(machinesNamed(`the ${title} on Friday`, [title])).toEqual([0]);
    }),
  );
});
