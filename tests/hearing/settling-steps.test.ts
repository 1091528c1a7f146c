import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { settledBy } from '../../src/hearing/binding/settle.js';
import { STEPS } from '../../src/hearing/binding/senses.js';
import { isTradeWord } from '../../src/hearing/tagging/part-index.js';
import { tag } from '../../src/hearing/tagging/tag.js';
import { figures } from '../../src/hearing/text/number-words.js';
import { isOrdinary } from '../../src/hearing/text/ordinary-words.js';
import { tokenise } from '../../src/hearing/text/tokens.js';

const TALK = [
  'worked',
  'tuning',
  'third-tuning',
  'fourth-tuning',
  'fifth-tuning',
  'sixth-tuning',
  'seventh-tuning',
].flatMap((corpus) =>
  readFileSync(new URL(`./corpus/${corpus}.jsonl`, import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .map((line) => (JSON.parse(line) as { text: string }).text),
);

// A step is passed over where a message has none of the words it turns on: whoever widens a step must widen its words.
describe('a step that is passed over', () => {
  it('would have settled nothing, whatever was said', () => {
    const every = settledBy(STEPS.map(({ settle }) => ({ settle, on: 'any words' })));
    const turned = settledBy(STEPS);
    const missed = TALK.filter((text) => {
      const tokens = figures(tokenise(text));
      const chunks = tag(tokens, { today: '2026-07-01' }, (word) => isOrdinary(word) || isTradeWord(word));
      return JSON.stringify(turned(chunks, tokens)) !== JSON.stringify(every(chunks, tokens));
    });
    expect(missed).toEqual([]);
  });
});
