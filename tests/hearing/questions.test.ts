import { describe, expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import type { Question } from '../../src/hearing/reading.js';

const asked = (text: string): Question | null => readMessage(text, { today: '2026-07-01' }).question;

// What each topic is for is the contract's (`hearing.md`); the ways of asking are common practice, no source.
describe('a question without its mark', () => {
  it.each([
    ["what's out", 'holding', null],
    ['whats the plater got', 'holding', 'the plater'],
    ["what's still to come from Harl and Dunn", 'holding', 'Harl and Dunn'],
    ['who do i need to ring', 'overdue', null],
    ['what have i got to do today', 'next', null],
    ['anything left to order', 'blocking', null],
    ['which parts want chroming', 'blocking', null],
    ['what needs to go to the plater', 'blocking', 'the plater'],
    ['can we make the end of the month', 'ready', null],
    ['has mrs dale answered', 'agreed', null],
    ['what was the end float', 'findings', null],
  ])('“%s” is about %s', (text, about, supplier) => {
    expect(asked(text)).toMatchObject({ about, part: null, supplier });
  });

  it.each([
    ['can i fit the forks yet', 'blocking', 'telescopic fork'],
    ['have we got the wheels back', 'ready', 'wheel'],
    ['got a picture of the barrel', 'photos', 'cylinder barrel'],
  ])('“%s” is about %s of its part', (text, about, part) => {
    expect(asked(text)).toMatchObject({ about, part });
  });

  it.each([
    'got the wheels back',
    'can make a new bracket',
    'tank’s out at the painter’s',
    'need to order rings',
  ])('“%s” asks nothing', (text) => expect(asked(text)).toBeNull());
});
