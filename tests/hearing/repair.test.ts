import { describe, expect, test } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import { figures } from '../../src/hearing/text/number-words.js';
import { joinTokens, tokenise } from '../../src/hearing/text/tokens.js';
import {
  ordinarySentences,
  putRight,
  tradeSentences,
  wronglyRepaired,
  type Soundalike,
} from '../support/hearing-soundalikes.js';
import { reference } from '../support/reference.js';

// Soundalikes: computed from the CMU pronouncing dictionary and a frequency list; see tests/references/README.md.
const soundalikes = reference<Soundalike[]>('hearing-soundalikes.json');

describe('dictation repair', () => {
  test('ordinary sentences keep their words: at most 1 % wrongly repaired', () => {
    const sentences = ordinarySentences(soundalikes);
    expect(sentences.filter(wronglyRepaired).length / sentences.length).toBeLessThanOrEqual(0.01);
  });

  // 80 % on the whole list (tests/bench/hearing.ts); a quarter of it is fewer words, so less is asked here.
  test('trade sentences get their part back: 75 % of this slice', () => {
    const sentences = tradeSentences(soundalikes);
    expect(sentences.filter(putRight).length / sentences.length).toBeGreaterThanOrEqual(0.75);
  });

  test.each([
    ['magnet oh', 'magneto'],
    ['die no mow', 'dynamo'],
    ['con rod', 'connecting rod'],
    ['come follower', 'cam follower'],
    ['grudge in pin', 'gudgeon pin'],
  ])('"%s" is the %s', (heard, part) => {
    const items = readMessage(`the ${heard} is pitted and worn`, { today: '2026-03-02', spoken: true }).items;
    expect(items[0]?.part).toBe(part);
  });

  test('typed words are not taken for others, slips of the keys are put right', () => {
    const typed = (text: string) => readMessage(text, { today: '2026-03-02' });
    expect(typed('the station is pitted').heard).toBe('the station is pitted');
    expect(typed('mudgaurd dented')).toMatchObject({
      heard: 'mudguard dented',
      items: [{ part: 'mudguard' }],
    });
  });
});

describe('number words', () => {
  test.each([
    ['ten and a half thou', '10.5 thou'],
    ['three eighths', '3/8'],
    ['twenty-five sixty-four', '25/64'],
    ['a hundred and ten', '110'],
    ['seventy point eight', '70.8'],
    ['point oh oh two', '0.002'],
    ['the twenty-first of June', 'the 21st of June'],
    ['one and three quarter inches', '1.75 inches'],
    ['that one there', 'that one there'],
    ['a second opinion', 'a second opinion'],
  ])('%s', (said, figured) => {
    expect(joinTokens(figures(tokenise(said)))).toBe(figured);
  });
});
