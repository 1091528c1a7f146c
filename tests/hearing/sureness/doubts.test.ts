import { describe, expect, test } from 'vitest';
import { readMessage } from '../../../src/hearing/read-message.js';
import { doubtsOf } from '../../../src/hearing/sureness/doubts.js';

const TODAY = '2026-03-02';

/** Reads the words, those in brackets not clearly heard. */
function heard(said: string): { part: string | null; unsure: string[] }[] {
  const words = said
    .split(' ')
    .map((word) =>
      word.startsWith('[') ? { word: word.slice(1, -1), confidence: 0.2 } : { word, confidence: 0.95 },
    );
  const { text, doubts } = doubtsOf(words, 0.5);
  return readMessage(text, { today: TODAY, spoken: true, doubts }).items.map(({ part, unsure }) => ({
    part,
    unsure,
  }));
}

describe('words that a recogniser was not sure of', () => {
  test('are given by where they stand in the text', () => {
    const words = [
      { word: 'tank', confidence: 0.9 },
      { word: 'dented', confidence: 0.3 },
    ];
    expect(doubtsOf(words, 0.5)).toEqual({ text: 'tank dented', doubts: [{ from: 5, to: 11 }] });
  });

  test('leave the reading as it is where there are none', () => {
    expect(heard('front stanchion pitted')).toEqual([{ part: 'fork stanchion', unsure: [] }]);
  });

  test('make the fields unsure that hang on them, and no others', () => {
    expect(heard('front [stanchion] pitted')).toEqual([{ part: 'fork stanchion', unsure: ['part'] }]);
    expect(heard('front stanchion [pitted]')).toEqual([{ part: 'fork stanchion', unsure: ['conditions'] }]);
    expect(heard('[front] stanchion pitted')).toEqual([{ part: 'fork stanchion', unsure: ['place'] }]);
  });

  test('are followed through number words', () => {
    expect(heard('footrest bent new one [forty] [five] quid')[0]?.unsure).toContain('cost');
    expect(heard('footrest bent new one forty five quid')[0]?.unsure).not.toContain('cost');
  });

  test('are followed through repair by sound', () => {
    expect(heard('the [station] on the drive side is pitted')).toEqual([
      { part: 'fork stanchion', unsure: expect.arrayContaining(['part']) as unknown },
    ]);
  });

  test('tell of a denial too', () => {
    expect(heard('magneto [not] worn')[0]?.unsure).toContain('conditions');
    expect(heard('magneto not worn')[0]?.unsure).not.toContain('conditions');
  });

  test('may stand anywhere, or nowhere', () => {
    const read = (from: number, to: number) =>
      readMessage('magneto worn', { today: TODAY, doubts: [{ from, to }] }).items[0]?.unsure;
    expect(read(40, 50)).toEqual([]);
    expect(read(-5, 0)).toEqual([]);
    expect(read(0, 400)).toEqual(expect.arrayContaining(['part', 'conditions']));
  });
});
