import { describe, expect, it } from 'vitest';
import { sayBack } from '../../src/wording/read-back.js';
import { back, found, fitted, NOTHING, number, opened, pass, step, the } from '../job/talk.js';
import { insidesIn, linesOf, speakerOn } from './people.js';
import { readingOf, tell } from './telling.js';

const IN = [opened()];
const said = (told: Parameters<typeof sayBack>[0], today = '2026-03-02') =>
  linesOf(sayBack(told, speakerOn(today)));

describe('what was not done', () => {
  const two = [...IN, found(the('wheel rim', 'front')), found(the('wheel rim', 'rear'))];

  it('asks which of several, with a button each that fills in the number', () => {
    const reading = readingOf({ act: 'fitted', part: 'wheel rim' });
    const answer = sayBack(tell(two, [fitted(the('wheel rim'))], reading), speakerOn());
    expect(linesOf(answer)).toEqual([
      'Which wheel rim: front wheel rim (1) and rear wheel rim (2)? Tap one, or say it again with the number.',
    ]);
    const [first] = answer.buttons.flat();
    expect(first?.label).toBe('1 · front wheel rim');
    expect(first?.action).toMatchObject({
      do: 'apply',
      instead: false,
      reading: { items: [{ item: 1, part: 'wheel rim' }] },
    });
  });

  const linked = [...IN];
  const refusals: Record<
    string,
    { before: Parameters<typeof tell>[0]; command: Parameters<typeof tell>[1][number]; says: RegExp }
  > = {
    'no-such-item': { before: IN, command: fitted(number(57)), says: /no number 57.*Say “list”/ },
    'nothing-named': { before: IN, command: fitted(NOTHING), says: /Say it again with its name or number/ },
    'nothing-out': {
      before: IN,
      command: back(NOTHING, { supplier: 'brook' }),
      says: /Cobnut Plating.*Say it again/,
    },
    'no-such-step': { before: IN, command: step('57'), says: /no step 57.*Say “build order”/ },
    'no-such-check': {
      before: IN,
      command: { type: 'do-check', check: 'x', text: null },
      says: /Say “checks”/,
    },
    'no-such-fault': { before: IN, command: { type: 'clear-fault', fault: 3 }, says: /no fault 3.*Say “/ },
    'no-such-notice': {
      before: IN,
      command: { type: 'settle-notice', notice: 'x', release: true },
      says: /Nothing to do/,
    },
    loop: {
      before: linked,
      command: { type: 'link-step', step: 'mount-frame', after: 'fit-stands', linked: true },
      says: /ring.*Take one link away first/,
    },
    'gate-blocked': { before: IN, command: pass('inspected'), says: /can’t be passed yet/ },
    'gate-passed': {
      before: [...IN, pass('stripped')],
      command: pass('stripped'),
      says: /passed already; nothing more to do/,
    },
    'gates-open': {
      before: IN,
      command: { type: 'hand-over' },
      says: /can’t be handed over yet: stripped, /,
    },
    'no-owner': {
      before: [opened({ owner: null })],
      command: { type: 'ask-yes', items: [] },
      says: /Say “owner”/,
    },
    'job-exists': { before: IN, command: opened(), says: /Say “machines”/ },
  };

  it.each(Object.entries(refusals))(
    '%s is told in plain words with what to do',
    (why, { before, command, says }) => {
      const told = tell(before, [command]);
      expect(told.refused.map(({ refusal }) => refusal.why)).toEqual([why]);
      const text = said(told).join('\n');
      expect(text).toMatch(says);
      expect(insidesIn(text)).toEqual([]);
    },
  );

  it('shows the way to what is in the way', () => {
    const answer = sayBack(tell(IN, [pass('inspected')]), speakerOn());
    expect(answer.buttons.flat().map(({ action }) => action.do)).toEqual(['answer-more']);
  });
});
