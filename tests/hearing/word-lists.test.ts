import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { listedPart } from '../../src/hearing/repair/listed-slips.js';
import { LONGEST } from '../../src/hearing/repair/misheard.js';
import { smallSlips } from '../../src/hearing/repair/small-slips.js';
import { spellingSlips } from '../../src/hearing/repair/spelling.js';
import type { Meaning } from '../../src/hearing/tagging/chunk.js';
import { partOf } from '../../src/hearing/tagging/part-index.js';
import { keyOf, matches, phraseIndex } from '../../src/hearing/tagging/phrase-index.js';
import { SAID_SHORT, SLASHED } from '../../src/hearing/text/dialect.js';
import { verbForms } from '../../src/hearing/text/morphology.js';
import { figures } from '../../src/hearing/text/number-words.js';
import { tokenise, type Token } from '../../src/hearing/text/tokens.js';
import { lexicon } from '../../src/trade/lexicon/load.js';
import { expand, phrases } from '../../src/trade/lexicon/phrases.js';

/** The tokens of words as the reader has them before it looks anything up. */
const heard = (text: string): Token[] => figures(tokenise(text));

type Saying = {
  means: string;
  said: string[];
  nouns: string[];
  verbs: string[];
  outcome?: string | undefined;
};
type Pattern = { list: string; pattern: string; wordings: string[] };

const actForms = (verb: string): string[] => verbForms(verb).slice(2, 3);

const patternsOf = (file: string, { means, outcome, said, nouns, verbs }: Saying): Pattern[] => {
  const list = `${file}, ${means}${outcome === undefined ? '' : ` ${outcome}`}`;
  const formsOf = file === 'acts' ? actForms : verbForms;
  return [
    ...said.map((pattern) => ({ list: `${list}, said`, pattern, wordings: expand(pattern) })),
    ...nouns.map((pattern) => ({ list: `${list}, nouns`, pattern, wordings: [pattern] })),
    ...verbs.map((pattern) => ({ list: `${list}, verbs`, pattern, wordings: formsOf(pattern) })),
  ];
};

/** Patterns of which a list says every wording before. */
function repeated(patterns: readonly Pattern[]): string[] {
  const known = new Set<string>();
  return patterns.flatMap(({ list, pattern, wordings }) => {
    const keys = wordings.map((wording) => `${list}: ${keyOf(heard(wording))}`);
    const again = keys.every((key) => known.has(key));
    for (const key of keys) known.add(key);
    return again ? [`${list}: ${pattern}`] : [];
  });
}

const finds = (text: string, wanted: (meaning: Meaning) => boolean): boolean => {
  const tokens = heard(text);
  return matches(tokens, (key) => phraseIndex.get(key)).some(
    ({ from, to, means }) => from === 0 && to === tokens.length && means.some(wanted),
  );
};

describe('sayings', () => {
  test.each(Object.entries(phrases))('%s: none is said twice', (file, entries: Saying[]) => {
    expect(repeated(entries.flatMap((entry) => patternsOf(file, entry)))).toEqual([]);
  });

  test.each(['conditions', 'remedies', 'processes', 'places', 'acts', 'set-phrases'] as const)(
    '%s: each is met in some message',
    (file) => {
      const unmet = phrases[file].flatMap((entry: Saying) =>
        patternsOf(file, entry).flatMap(({ list, pattern, wordings }) => {
          const isMeant = (meaning: Meaning): boolean =>
            (Object.values(meaning) as unknown[]).includes(entry.means) &&
            (meaning.kind !== 'act' || meaning.outcome === (entry.outcome ?? null));
          return wordings.some((wording) => finds(wording, isMeant)) ? [] : [`${list}: ${pattern}`];
        }),
      );
      expect(unmet).toEqual([]);
    },
  );

  test('trades: each is met as typed', () => {
    const unmet = phrases.trades
      .flatMap(({ nouns }) => nouns)
      .filter((noun) => keyOf(spellingSlips(heard(noun))) !== keyOf(tokenise(noun)) || /[^a-z ]/.test(noun));
    expect(unmet).toEqual([]);
  });
});

describe('parts', () => {
  test('each name is met, typed or dictated', () => {
    const unmet = lexicon.parts.flatMap((part) =>
      [part.name, ...part.also, ...(part.plural === undefined ? [] : [part.plural])].filter((name) => {
        const tokens = spellingSlips(heard(name));
        return !matches(tokens, partOf).some(
          ({ from, to, means }) => from === 0 && to === tokens.length && means.part === part.name,
        );
      }),
    );
    expect(unmet).toEqual([]);
  });

  test('no word is down twice as misheard, and each is met', () => {
    const known = new Set<string>();
    const wrong = lexicon.parts.flatMap((part) =>
      part.misheard.filter((words) => {
        const tokens = smallSlips(heard(words));
        const key = keyOf(tokens);
        const again = known.has(key);
        known.add(key);
        const last = tokens.at(-1);
        const isPart = last === undefined || partOf(key, last) !== undefined;
        const met =
          tokens.every(({ kind }) => kind === 'word') &&
          tokens.length <= LONGEST &&
          listedPart(tokens, 0, tokens.length)?.part === part;
        return again || isPart || !met;
      }),
    );
    expect(wrong).toEqual([]);
  });
});

describe('dialect', () => {
  test.each([...SAID_SHORT, ...SLASHED])('%s is %s', (said, plain) => {
    expect(tokenise(`so ${said} it`).map(({ word }) => word)).toEqual(['so', plain, 'it']);
  });
});

/** These look at a message's text, or at letters and sounds, not at its words. */
const OF_TEXT = /^(instructions|speech)\/|^(questions|rides|score)\.ts$|tokens\.ts$/;

/** The choices of words in patterns of the reader's code: "(a|b|c)". */
const choices = (readdirSync('src/hearing', { recursive: true }) as string[])
  .filter((file) => file.endsWith('.ts') && !OF_TEXT.test(file))
  .flatMap((file) =>
    [
      ...readFileSync(`src/hearing/${file}`, 'utf8').matchAll(
        /\((?:\?:)?((?:[a-z']|\w\?)(?:[a-z' -]|\w\?)*(?:\|(?:[a-z' -]|\w\?)+)+)\)/g,
      ),
    ].map(([, words = '']) => ({ file, words: words.split('|') })),
  )
  // No choice of words but a stroke between quotes: split('|').
  .filter(({ words }) => words[0] !== "'");

const withOptional = (word: string): string[] => [word.replace(/\w\?/g, ''), word.replace(/\?/g, '')];

describe('choices of words in the code', () => {
  test('are found', () => {
    expect(choices.length).toBeGreaterThan(200);
  });

  test('none has a word twice', () => {
    const twice = choices.flatMap(({ file, words }) =>
      words.filter((word, at) => words.indexOf(word) !== at).map((word) => `${file}: ${word}`),
    );
    expect(twice).toEqual([]);
  });

  test('each word is one that a message can hold, as the reader has it', () => {
    // An owner's clauses are matched as text, their words put together again.
    const byWord = choices.filter(({ file }) => !file.startsWith('owners/'));
    const unmet = byWord.flatMap(({ file, words }) =>
      words
        .filter((word) => !word.includes('-') && word.trim() === word)
        .flatMap((word) => [...new Set(withOptional(word))])
        .filter((word) => {
          const tokens = tokenise(`${word} it`).slice(0, -1);
          return tokens.map((token) => token.word).join(' ') !== word;
        })
        .map((word) => `${file}: ${word}`),
    );
    expect(unmet).toEqual([]);
  });
});
