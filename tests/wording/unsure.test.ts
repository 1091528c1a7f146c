import { describe, expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import type { Reading } from '../../src/hearing/reading.js';
import { sayBack } from '../../src/wording/read-back.js';
import { found, opened, the } from '../job/talk.js';
import { linesOf, speakerOn } from './people.js';
import { readingOf, tell } from './telling.js';

const TODAY = '2026-03-02';

/** A message as read, with these fields of its item in doubt and no others. */
function doubting(said: string, at: number, ...fields: string[]): Reading {
  const reading = readMessage(said, { today: TODAY });
  return {
    ...reading,
    items: reading.items.map((item, index) => ({ ...item, unsure: index === at ? fields : [] })),
  };
}

function asked(reading: Reading): {
  line: string;
  labels: string[];
  items: (label: string) => Reading['items'];
} {
  const answer = sayBack(
    tell([opened()], [found(the('chain'), { conditions: ['worn'] })], reading),
    speakerOn(TODAY),
  );
  const buttons = answer.buttons.flat();
  return {
    line: linesOf(answer).at(-1) ?? '',
    labels: buttons.map(({ label }) => label).filter((label) => label !== 'Undo' && label !== 'Change'),
    items: (label) => {
      const action = buttons.find((button) => button.label === label)?.action;
      return action?.do === 'apply' ? action.reading.items : [];
    },
  };
}

describe('the one question', () => {
  it('offers other things named in the message, or that it was none', () => {
    const { line, labels, items } = asked(doubting('footrest bent, horn broken', 1, 'part'));
    expect(line).toBe('I took that to be the horn: right?');
    expect(labels).toEqual(['Footrest', 'Leave it out']);
    expect(items('Footrest').map(({ part }) => part)).toEqual(['footrest', 'footrest']);
    expect(items('Leave it out').map(({ part }) => part)).toEqual(['footrest']);
  });

  it('asks after the thing before what was done with it, and names it where there are several', () => {
    const reading = doubting('footrest bent, sent the horn to the gauge man', 1, 'act');
    expect(asked(reading)).toMatchObject({
      line: 'Horn: has it gone, or is it still to go?',
      labels: ['It has gone', 'Still to go'],
    });
    expect(asked(doubting('footrest bent, sent the horn to the gauge man', 1, 'act', 'part')).line).toBe(
      'I took that to be the horn: right?',
    );
  });

  it('offers another sum of the message, also where none was taken', () => {
    const said = 'tank to the painter £40, horn to the gauge man £60';
    expect(asked(doubting(said, 0, 'cost'))).toMatchObject({ labels: ['£60'] });
    const none = doubting(said, 0, 'cost');
    const without = { ...none, items: none.items.map((item) => ({ ...item, cost: null })) };
    expect(asked(without)).toMatchObject({
      line: 'What does the petrol tank cost?',
      labels: ['£40', '£60', 'Nothing said'],
    });
  });

  it('lets a supplier be nobody', () => {
    const { labels, items } = asked(doubting('sent the horn to the gauge man', 0, 'supplier'));
    expect(labels).toEqual(['Nobody']);
    expect(items('Nobody')).toMatchObject([{ part: 'horn', supplier: null, unsure: [] }]);
  });

  it('is not put where nothing was decided and nothing sounds like it', () => {
    expect(asked(doubting('footrest bent', 0, 'remedy')).line).not.toMatch(/\?/);
  });
});

describe('what little hangs on', () => {
  it('is said in one line and not asked', () => {
    const reading = readingOf({
      part: 'chain',
      count: 2,
      conditions: ['worn'],
      stored: 'bag 4',
      unsure: ['count', 'conditions', 'stored'],
    });
    expect(asked(reading)).toMatchObject({
      line: 'I took it as: 2 of them, worn and in bag 4. “Change” if not.',
      labels: [],
    });
  });

  it('is not said where nothing was told in it', () => {
    expect(asked(readingOf({ part: 'chain', unsure: ['conditions', 'readings'] })).line).not.toMatch(/took/);
  });
});
