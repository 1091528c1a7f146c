import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import type { OwnersAnswer } from '../../src/hearing/owners/answers.js';
import { ownersAnswers } from '../../src/hearing/owners/answers.js';
import type { AskedOf } from '../../src/hearing/owners/things.js';

// What owners write is invented; that a yes is only what cannot be anything else is common practice, no source.

const ASKED: readonly AskedOf[] = [
  { number: 1, part: 'petrol tank', place: [], processes: ['paint'] },
  { number: 2, part: 'magneto', place: [], processes: ['rewind'] },
  { number: 3, part: 'wheel rim', place: ['front'], processes: ['chrome'] },
  { number: 4, part: 'wheel rim', place: ['rear'], processes: ['chrome'] },
  { number: 5, part: 'seat', place: [], processes: ['upholster'] },
];
const ALL = ASKED.map(({ number }) => number);

const answers = (text: string, isAnswer = true): OwnersAnswer[] =>
  ownersAnswers(text, { asked: ASKED, waiting: ALL, putOff: [], isAnswer }, { today: '2026-03-02' });
const of = (outcome: OwnersAnswer['outcome'], given: readonly OwnersAnswer[]): number[] =>
  given.filter((each) => each.outcome === outcome).flatMap(({ items }) => items.toSorted());

describe('an owner’s words, clause by clause', () => {
  it.each<[string, number[], number[], number[]]>([
    ['Yes to the magneto, but the tank is too dear', [2], [], [1]],
    ['Yes to the magneto. Ask me again about the tank', [2], [], [1]],
    ['Yes to the magneto. Ask me again next week', [2], [], [1, 3, 4, 5]],
    ['Yes to the magneto, but ask me again next week', [], [], ALL],
    ['Yes to everything except the rims', [1, 2, 5], [3, 4], []],
    ['Yes to all but the tank', [2, 3, 4, 5], [1], []],
    ['No to everything except the tank', [], [2, 3, 4, 5], [1]],
    ['no to the chrome, yes to the rest', [1, 2, 5], [3, 4], []],
    ['do the tank but leave the seat', [1], [5], []],
    ['Do the tank and leave the seat for now', [1], [5], []],
    ['No chrome please, just the tank', [], [3, 4], [1]],
    ['Magneto: yes, tank: no', [2], [1], []],
    ['yes - tank, no - magneto', [1], [2], []],
    ['yes to the magneto no to the tank and leave the seat', [2], [1, 5], []],
    ['The magneto rewind is a yes; the seat’s a no', [2], [5], []],
    ['Yes to the tank, the magneto and the seat', [1, 2, 5], [], []],
    ['Yes to the front rim', [3], [], []],
    ['Yes to the tank. Cancel that', [], [], [1]],
    ['Yes to all of it. Scrap that, too late now', [], [], ALL],
    ['Yes please! When can I collect it?', ALL, [], []],
    ['Yes please. Not the seat though', [1, 2, 3, 4], [5], []],
    ['Hello, yes to all of it please. Thank you, Anne', ALL, [], []],
    ['None of it, thank you', [], ALL, []],
  ])('of “%s” %j are agreed to, %j refused, %j to be talked about', (text, yes, no, talk) => {
    const given = answers(text);
    expect({ yes: of('yes', given), no: of('no', given), talk: of('talk', given) }).toEqual({
      yes,
      no,
      talk,
    });
  });

  it.each([
    'Yes to the rim',
    'Yes to the tank at £100',
    'Yes to the tank as long as it is the same red',
    'Yes to the tank and the magneto if you can do them for less',
    'Yes to the tank?',
    'If I say yes to the tank, what does it come to?',
    'Suppose I said, yes to the tank',
    'I can’t say yes to the tank',
    'Please don’t, whatever you do, do the tank',
    'No, do the tank',
    'Yes to the tank. Actually no, leave the tank',
    'Yes to the tank. Leave the tank',
    'Yes to the tank, too dear though',
    'The magneto is fine',
    'Get the tank',
    'Not all of it, just the tank',
    'Yes to all of it except the exhaust',
    'Yes to all of it, but please send me a photo first',
    'Yes to both',
    'OK. I’ll have to ask my wife',
    'OK I will think about it',
    'Yes please. I’ll come on Friday',
    'Yes, but the tank is too dear',
    'The wife says no to the chrome, otherwise go ahead with everything',
  ])('nothing is agreed to by “%s”', (text) => {
    expect(of('yes', answers(text))).toEqual([]);
  });

  it.each(['OK', 'Yes please', 'That’s fine', 'I’m happy with the tank', 'OK for the tank'])(
    '“%s” says so only to a question that stands before it',
    (text) => {
      expect(of('yes', answers(text))).not.toEqual([]);
      expect(of('yes', answers(text, false))).toEqual([]);
    },
  );
});

const SAID: Readonly<Record<string, readonly number[]>> = {
  'the petrol tank': [1],
  'the magneto': [2],
  'the front rim': [3],
  'the rear rim': [4],
  'the rims': [3, 4],
  'the seat': [5],
};
const thing = fc.constantFrom(...Object.keys(SAID));
const numbers = (things: readonly string[]): number[] => things.flatMap((each) => SAID[each] ?? []);
const put = (form: string, name: string): string => form.replace('…', name);
const YES = ['yes to …', 'go ahead with …', 'please do …', '… is a yes', 'yes, … please'] as const;
const OTHER = [
  ...['no to …', 'leave …', 'not …', '… is too dear', 'ask me again about …', 'let’s talk about …'],
  ...['don’t do …', '… can wait', 'how is …?', 'I can’t say yes to …', '… if it is cheaper', 'I liked …'],
  ...['… was my father’s', 'I would not go ahead with …', 'hold off on …', 'maybe …', 'never mind …'],
] as const;
const TALK = ['the weather is fine', 'I’ll come on Friday', 'thank you', 'see you soon', 'hello'] as const;

type Clause = { text: string; yes: number[] };
const clause: fc.Arbitrary<Clause> = fc.oneof(
  fc
    .tuple(fc.constantFrom(...YES), thing)
    .map(([form, name]) => ({ text: put(form, name), yes: numbers([name]) })),
  fc.tuple(fc.constantFrom(...OTHER), thing).map(([form, name]) => ({ text: put(form, name), yes: [] })),
  fc.constantFrom(...TALK).map((text) => ({ text, yes: [] })),
);
const joint = fc.constantFrom(', ', '. ', ' but ', '; ', ', and ', ' - ', '\n', ' and ', ' ');
const message = fc.array(fc.tuple(clause, joint), { minLength: 1, maxLength: 5 });
const written = (said: readonly [Clause, string][]): string =>
  said.map(([{ text }, joined], at) => text + (at < said.length - 1 ? joined : '')).join('');

describe('whatever an owner writes', () => {
  test('a thing that no yes clause names or covers is never agreed to', () => {
    fc.assert(
      fc.property(message, fc.boolean(), (said, isAnswer) => {
        const allowed = said.flatMap(([{ yes }]) => yes);
        for (const item of of('yes', answers(written(said), isAnswer))) expect(allowed).toContain(item);
      }),
      { numRuns: 400 },
    );
  });

  test('“yes to all” covers nothing that is named in another clause', () => {
    const universal = fc.constantFrom('yes to all of it', 'go ahead with everything', 'yes to the rest');
    const other = fc.tuple(fc.constantFrom(...OTHER), thing);
    fc.assert(
      fc.property(
        universal,
        fc.constantFrom(', ', '. ', ' but ', '; '),
        other,
        (all, joined, [form, name]) => {
          const yes = [all + joined + put(form, name), put(form, name) + joined + all].map((text) =>
            of('yes', answers(text)),
          );
          for (const item of numbers([name])) for (const agreed of yes) expect(agreed).not.toContain(item);
        },
      ),
      { numRuns: 200 },
    );
  });

  test('no heap of words agrees to a thing without a word of consent, and the thing’s name or a word for all', () => {
    const word = fc.constantFrom(
      ...'not no leave but if the to with is don’t ask me again too dear , . ? and except for it rather do all yes ok'.split(
        ' ',
      ),
      ...Object.keys(SAID),
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 9 }), (words) => {
        for (const item of of('yes', answers(words.join(' '), false))) {
          expect(words.some((each) => /^(?:yes|do)$/.test(each))).toBe(true);
          const isNamed = words.some((each) => SAID[each]?.includes(item));
          expect(isNamed || words.includes('all') || words.includes('it')).toBe(true);
          if (!words.some((each) => /[.?]/.test(each))) expect(words).not.toContain('if');
        }
      }),
      { numRuns: 1000 },
    );
  });

  test('each thing has one answer at most, and only what was asked about has any', () => {
    fc.assert(
      fc.property(message, (said) => {
        const items = answers(written(said)).flatMap(({ items: its }) => its);
        expect(new Set(items).size).toBe(items.length);
        for (const item of items) expect(ALL).toContain(item);
      }),
      { numRuns: 200 },
    );
  });

  test('a plain yes to a thing is heard, whatever else is plainly refused', () => {
    const pairs = fc
      .tuple(thing, thing)
      .filter(([a, b]) => !numbers([a]).some((one) => numbers([b]).includes(one)));
    fc.assert(
      fc.property(
        pairs,
        fc.constantFrom(...YES),
        fc.constantFrom('no to …', 'leave …'),
        ([a, b], yes, no) => {
          const given = answers(`${put(yes, a)}, ${put(no, b)}`);
          expect(of('yes', given)).toEqual(numbers([a]));
          expect(of('no', given)).toEqual(numbers([b]));
        },
      ),
    );
  });
});

describe('an answer without end', () => {
  const WORDS =
    'yes no not and then except but leave the both all rest tank magneto rims seat to on of fine ok do rewind paint x'.split(
      ' ',
    );

  it('is gone through as others are', () => {
    const long = fc.array(fc.constantFrom(...WORDS), { minLength: 200, maxLength: 400 });
    fc.assert(
      fc.property(long, fc.constantFrom(...WORDS), (mixed, one) => {
        for (const text of [
          mixed.join(' '),
          `${'yes to the tank and '.repeat(60)}${one}`,
          `${`${one} `.repeat(300)}x`,
        ])
          expect(answers(text).every(({ items }) => items.every((item) => ALL.includes(item)))).toBe(true);
      }),
      { numRuns: 20 },
    );
  });
});
