import { readFileSync } from 'node:fs';
import { dictionary } from 'cmu-pronouncing-dictionary';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arpaOf } from '../../../src/hearing/speech/arpa.js';
import { makeSentences } from '../../../src/hearing/speech/grammar.js';
import { makeSpeechModel } from '../../../src/hearing/speech/model.js';
import { countNgrams, START } from '../../../src/hearing/speech/ngrams.js';
import { patterns } from '../../../src/hearing/speech/patterns.js';
import { phraseLists } from '../../../src/hearing/speech/phrase-lists.js';
import { waysToSay } from '../../../src/hearing/speech/pronounce.js';
import { probability, smoothWittenBell } from '../../../src/hearing/speech/witten-bell.js';
import { lexicon } from '../../../src/trade/lexicon/load.js';
import { phrases } from '../../../src/trade/lexicon/phrases.js';
import { spokenWords } from '../../support/word-errors.js';

const talk = fc.array(fc.array(fc.constantFrom('fork', 'bent', 'the', 'tank', 'worn'), { maxLength: 6 }), {
  minLength: 1,
  maxLength: 12,
});

describe('a smoothed model', () => {
  it("gives each history's words, all of the vocabulary, a probability of one together", () => {
    fc.assert(
      fc.property(talk, fc.constantFrom(0.2, 1), fc.constantFrom(1, 2), (sentences, trust, atLeast) => {
        const model = smoothWittenBell(countNgrams(sentences, 3), { extra: ['rim'], trust, atLeast });
        for (const histories of model.seen)
          for (const history of histories.keys()) {
            const sum = [...model.vocabulary].reduce(
              (all, word) => all + probability(model, history, word),
              0,
            );
            expect(sum).toBeCloseTo(1, 9);
          }
      }),
    );
  });

  // Worked by hand from Chen and Goodman 1998, section 2.4: after <s>, "a" twice and "b" once, V = 3 with </s>.
  it('has the probabilities of interpolated Witten-Bell', () => {
    const model = smoothWittenBell(countNgrams([['a'], ['a'], ['b']], 2));
    const single = (2 + 3 * (1 / 3)) / (6 + 3);
    expect(probability(model, '', 'a')).toBeCloseTo(single, 12);
    expect(probability(model, START, 'a')).toBeCloseTo((2 + 2 * single) / (3 + 2), 12);
  });

  it('is written in the ARPA format with as many lines as its head says (SRILM, ngram-format(5))', () => {
    const text = arpaOf(
      smoothWittenBell(
        countNgrams(
          [
            ['the', 'fork'],
            ['the', 'tank'],
          ],
          3,
        ),
      ),
    );
    for (const [, order = '', size] of text.matchAll(/ngram (\d)=(\d+)/g)) {
      const section = text.split(`\\${order}-grams:\n`)[1]?.split('\n\n')[0] ?? '';
      expect(section.trim().split('\n')).toHaveLength(Number(size));
    }
  });
});

describe('the pronouncing dictionary', () => {
  const entries = makeSpeechModel({ suppliers: [], machines: [], owners: [], words: [] }, { sentences: 2000 })
    .dictionary.trim()
    .split('\n')
    .map((line) => line.split(' '));

  // The 39 phonemes of the CMU Pronouncing Dictionary, which the acoustic model has too.
  it('has only phonemes that the acoustic model has', () => {
    const phonemes = new Set(
      Object.values(dictionary).flatMap((way) => way.replace(/ *#.*$|\d/g, '').split(' ')),
    );
    expect(phonemes.size).toBe(39);
    const strange = entries.filter(([, ...way]) => way.length === 0 || way.some((one) => !phonemes.has(one)));
    expect(strange).toEqual([]);
  });

  it('gives each word that the CMU Pronouncing Dictionary has its way there, among others', () => {
    const words = new Set(entries.map(([entry = '']) => entry.replace(/\(\d+\)$/, '')));
    const known = [...words].filter((word) => Object.hasOwn(dictionary, word));
    expect(known.length).toBeGreaterThan(1000);
    for (const word of known) {
      const theirs = dictionary[word]?.replace(/ *#.*$|\d/g, '');
      expect(waysToSay(word).map((way) => way.join(' '))).toContain(theirs);
    }
  });
});

it("has a shop's owner by title and name, both to be said and in the sentences", () => {
  const { dictionary: words, languageModel } = makeSpeechModel(
    { suppliers: [], machines: [], owners: ['Mrs. Dale'], words: [] },
    { sentences: 2000 },
  );
  // The CMU dictionary's way of "Mrs.".
  expect(words).toMatch(/^mrs M IH S IH Z$/m);
  expect(languageModel).toMatch(/\tmrs dale\b/);
});

// Words of the top grade of SCOWL that no pattern has.
it.each(['behind', 'either', 'though'])('knows the ordinary word "%s"', (word) => {
  const { dictionary: words } = makeSpeechModel(
    { suppliers: [], machines: [], owners: [], words: [] },
    { sentences: 100 },
  );
  expect(words).toMatch(new RegExp(`^${word} `, 'm'));
});

describe('the sentences made by rule', () => {
  it('are none of those that the model is measured by', () => {
    const shop = {
      suppliers: ['Pinder', 'Hartnell', 'Olcott', 'Quarrington', 'Thorley'],
      machines: ['Ketterby', 'Wexcombe', 'Dunmore'],
      owners: ['Mrs Dale', 'Mr Pargeter'],
      words: [],
    };
    const lists = phraseLists(lexicon.parts, phrases, shop);
    const made = new Set(makeSentences(patterns, lists, 'message', 30_000).map((words) => words.join(' ')));
    const measured = readFileSync(new URL('./sentences.jsonl', import.meta.url), 'utf8')
      .trim()
      .split('\n')
      .map((line) => spokenWords((JSON.parse(line) as { text: string }).text).join(' '));
    expect(measured).toHaveLength(60);
    expect(measured.filter((sentence) => made.has(sentence))).toEqual([]);
  });
});
