import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import { textOf } from '../../src/wording/answer.js';
import { mergeAnswers, sayBack } from '../../src/wording/read-back.js';
import {
  back,
  found,
  fitted,
  opened,
  ordered,
  pass,
  pounds,
  promised,
  sent,
  several,
  the,
  tookOff,
} from '../job/talk.js';
import { on } from '../support/given.js';
import { talks, tellings } from '../support/random-job.js';
import { CHAT_TAKES, insidesIn, labelsOf, linesOf, seenOf, speakerOn } from './people.js';
import { ONE_JOB, readingOf, tell } from './telling.js';

const IN = [opened()];
const said = (told: Parameters<typeof sayBack>[0], today = '2026-03-02') =>
  linesOf(sayBack(told, speakerOn(today)));

describe('what is read back', () => {
  it('is one line a thing: number, name, what was seen, what is to be done, what it costs', () => {
    const command = found(several(2, 'fork stanchion', 'front'), {
      conditions: ['pitted'],
      readings: [{ quantity: 'diameter', value: 34.92, unit: 'mm' }],
      remedy: 'replace',
      cost: pounds(40, { about: true }),
    });
    expect(said(tell(IN, [command]))).toEqual([
      '1 · front fork stanchions: pitted, diameter 34.92 mm. Replace, about £40.',
    ]);
  });

  it('offers undo and change for what was recorded', () => {
    const told = tell(
      IN,
      [tookOff(the('dynamo'), { stored: 'box 3' })],
      readingOf({ act: 'stripped', part: 'dynamo' }),
    );
    const answer = sayBack(told, speakerOn());
    expect(textOf(answer)).toBe('1 · dynamo: off, in box 3.');
    expect(labelsOf(answer)).toEqual(['Undo', 'Change', 'All stripped']);
    expect(answer.buttons[0]?.[0]?.action).toEqual({ do: 'undo', job: 'job', message: 'm' });
  });

  it('names the machine where more than one is in', () => {
    const jobs = [...ONE_JOB, { id: 'other', title: 'Ostrel', owner: null, open: true }];
    const told = { ...tell(IN, [tookOff(the('dynamo'))]), jobs };
    expect(said(told)).toEqual(['Larkspur', '1 · dynamo: off.']);
  });

  it('tells what went where and when it is promised, and a promise moved with the day it was', () => {
    const gone = { ...sent(the('handlebar'), 'brook', 'chrome'), due: '2026-03-13' };
    expect(said(tell(IN, [gone]))).toEqual([
      '1 · handlebar: gone to Cobnut Plating for chroming, due Fri 13 March.',
    ]);
    expect(said(tell([...IN, gone], [promised(the('handlebar'), '2026-03-20', 'brook')]))).toEqual([
      '1 · handlebar: promised for Fri 20 March by Cobnut Plating, was Fri 13 March.',
    ]);
  });

  it('puts three things together of which the same is to be said', () => {
    const parts = ['chain', 'magneto', 'footrest'].map((part) => ordered(the(part), 'marsh'));
    expect(said(tell(IN, parts))).toEqual([
      '1 · chain, 2 · magneto, 3 · footrest: ordered from Sallow Spares, no date given yet.',
    ]);
  });

  it('asks for what the work changed to be measured again', () => {
    const away = sent(the('crankshaft'), 'harlow', 'regrind');
    const text = said(tell([...IN, away], [back(the('crankshaft'))]))[0];
    expect(text).toBe(
      '1 · crankshaft: back from Tansy Enamels. Measure again after regrinding: diameter, taper and ovality.',
    );
  });

  it('keeps a part return and a bad one apart', () => {
    const away = sent(several(6, 'spoke'), 'brook', 'zinc');
    expect(said(tell([...IN, away], [back(the('spoke'), { outcome: 'part', count: 4 })]))).toEqual([
      '1 · 6 spokes: 4 of 6 back from Cobnut Plating.',
    ]);
    expect(said(tell([...IN, away], [back(the('spoke'), { outcome: 'refused' })]))[0]).toContain(
      'back from Cobnut Plating, not right',
    );
  });

  it('gives a caution once, with its source and whose word goes first', () => {
    const first = tell(IN, [found(the('brake shoe'), { conditions: ['glazed'], remedy: 'replace' })]);
    const text = textOf(sayBack(first, speakerOn()));
    expect(text).toContain('asbestos');
    expect(text).toContain('HSE');
    expect(text.endsWith('Follow local rules and licensed practice.')).toBe(true);
    const again = tell(
      [...IN, found(the('brake shoe'), { conditions: ['glazed'], remedy: 'replace' })],
      [found(the('brake shoe'), { conditions: ['worn'] })],
    );
    expect(textOf(sayBack(again, speakerOn()))).not.toContain('asbestos');
  });

  it('records what went without the owner’s yes, with a word about it and a button to ask', () => {
    const priced = { ...sent(the('petrol tank'), 'harlow', 'paint'), cost: pounds(180) };
    const answer = sayBack(tell(IN, [priced]), speakerOn('2026-03-02'));
    expect(linesOf(answer)[0]).toBe(
      '1 · petrol tank: gone to Tansy Enamels for painting, no date given yet. £180. Mrs Averill hasn’t said yes to it.',
    );
    expect(labelsOf(answer)).toContain('Ask the owner');
  });

  it('says which gate opened again and why', () => {
    const done = [...IN, tookOff(the('footrest'), { remedy: 'keep' }), pass('stripped'), pass('inspected')];
    const told = tell(done, [found(the('wheel rim', 'rear'), { conditions: ['rusty'] })]);
    expect(said(told)).toContain('Open again: inspected. rear wheel rim (2): seen, but nothing decided yet.');
  });

  it('takes what was fitted out of order, and says so', () => {
    const text = said(tell(IN, [fitted(the('petrol tank'))])).join('\n');
    expect(text).toContain('1 · petrol tank: fitted.');
    expect(text).toMatch(
      /Noted, though by the build order “Fit the petrol tank.*” comes after “.+” and \d+ more\./,
    );
  });

  it('offers a gate once nothing is in its way', () => {
    const before = [...IN, tookOff(the('footrest')), pass('stripped')];
    const answer = sayBack(
      tell(before, [found(the('footrest'), { conditions: ['good'], remedy: 'keep' })]),
      speakerOn(),
    );
    expect(labelsOf(answer)).toContain('All inspected');
    expect(linesOf(answer)).toContain('Nothing is left in the way of “inspected”.');
  });

  it('says so where there was nothing new', () => {
    expect(said(tell(IN, []))).toEqual(['Nothing new in that: I have it so already.']);
  });
});

describe('one question where the reader was unsure', () => {
  const twoThings = [found(the('chain'), { remedy: 'replace', cost: pounds(40) })];

  it('offers the nearer day too, and takes the message again as chosen', () => {
    const reading = readingOf({ act: 'promised', part: 'handlebar', due: '2026-03-17', unsure: ['due'] });
    const gone = sent(the('handlebar'), 'brook', 'chrome');
    const answer = sayBack(
      tell([...IN, gone], [promised(the('handlebar'), '2026-03-17')], reading),
      speakerOn('2026-03-02'),
    );
    expect(linesOf(answer).at(-1)).toBe('Which day: Tue 10 March or Tue 17 March?');
    const nearer = answer.buttons.flat().find(({ label }) => label === 'Tue 10 March')?.action;
    expect(nearer).toMatchObject({ do: 'apply', instead: true, message: 'm', messageId: 7 });
    const items = nearer?.do === 'apply' ? nearer.reading.items : [];
    expect(items.map(({ due, unsure }) => ({ due, unsure }))).toEqual([{ due: '2026-03-10', unsure: [] }]);
  });

  it('asks whether a sum is for each or for all', () => {
    const reading = readingOf({ part: 'chain', count: 2, cost: pounds(40), unsure: ['cost'] });
    const answer = sayBack(tell(IN, twoThings, reading), speakerOn());
    expect(linesOf(answer).at(-1)).toBe('£40 for each, or for all 2 chains?');
    expect(labelsOf(answer)).toEqual(expect.arrayContaining(['Each', 'All together']));
  });

  it('asks only whether it was right where nothing else is known to be meant', () => {
    const reading = readingOf({ part: 'chain', unsure: ['part', 'remedy'] });
    const answer = sayBack(tell(IN, twoThings, reading), speakerOn());
    expect(linesOf(answer).at(-1)).toBe('I took that to be the chain: right?');
    expect(labelsOf(answer)).toEqual(['Undo', 'Change']);
  });
});

describe('answers to several jobs', () => {
  it('stand under each other, their buttons told apart', () => {
    const jobs = [...ONE_JOB, { id: 'other', title: 'Ostrel', owner: null, open: true }];
    const one = sayBack({ ...tell(IN, [tookOff(the('dynamo'))]), jobs }, speakerOn());
    const two = sayBack(
      { ...tell([opened({ title: 'Ostrel' })], [ordered(the('chain'), 'marsh')]), jobs, job: 'other' },
      speakerOn(),
    );
    const both = mergeAnswers([one, two]);
    expect(linesOf(both)).toEqual([
      'Larkspur',
      '1 · dynamo: off.',
      '',
      'Ostrel',
      '1 · chain: ordered from Sallow Spares, no date given yet.',
    ]);
    expect(labelsOf(both).filter((label) => label.startsWith('Undo'))).toEqual([
      'Undo: Larkspur',
      'Undo: Ostrel',
    ]);
  });
});

it('of any talk is said back: never nothing, never too long, nothing of our insides', () => {
  fc.assert(
    fc.property(talks, (talk) => {
      for (const telling of tellings(talk)) {
        const told = { ...telling, job: 'job', said: null, policy: DEFAULT_POLICY, jobs: ONE_JOB };
        const answer = sayBack(told, speakerOn('2026-04-01'));
        const text = textOf(answer);
        expect(text.trim()).not.toBe('');
        expect(text.length).toBeLessThanOrEqual(CHAT_TAKES);
        expect(insidesIn(seenOf(answer))).toEqual([]);
        const ids = telling.state.steps.map(({ id }) => id).filter((id) => id.includes('-'));
        expect(ids.filter((id) => text.includes(id))).toEqual([]);
      }
    }),
    { numRuns: 100 },
  );
});

it('says on a later day what is promised for it', () => {
  const gone = { ...sent(the('handlebar'), 'brook', 'chrome'), due: '2027-01-08' };
  expect(said(tell([...IN, on('2026-12-01')], [gone]), '2026-12-01')[0]).toContain('due Fri 8 January 2027');
});
