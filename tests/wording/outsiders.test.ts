import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Matter } from '../../src/contact/events.js';
import { QUESTION_TOPICS } from '../../src/hearing/reading.js';
import { isOut } from '../../src/job/state.js';
import type { JobState } from '../../src/job/state.js';
import { roundUp } from '../../src/shop/round-up.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import type { Answer } from '../../src/wording/answer.js';
import { textOf } from '../../src/wording/answer.js';
import { noticeText, ownerAnswered, ownerProgress, yesAskedText } from '../../src/wording/owner.js';
import { roundUpText } from '../../src/wording/round-up.js';
import { supplierDayText, supplierHolds, supplierThanks } from '../../src/wording/supplier.js';
import { releaseText, toldText } from '../../src/wording/told.js';
import { NO_HOLIDAYS } from '../../src/plan/holidays.js';
import {
  back,
  found,
  lineOf,
  opened,
  pass,
  pounds,
  promised,
  sent,
  several,
  the,
  tookOff,
} from '../job/talk.js';
import { given, on, RULES } from '../support/given.js';
import { lastDayOf, talks, tellings } from '../support/random-job.js';
import { CHAT_TAKES, insidesIn, labelsOf, linesOf, NAMES, seenOf, speakerOn } from './people.js';

const matter = (line: string, step: string): Matter => ({ due: 'd', job: 'job', person: null, line, step });
const SHOP = 'Marl’s workshop';
const away = { ...sent(several(2, 'wheel rim'), 'brook', 'chrome'), due: '2026-03-13' };
const jobs = (state: JobState) => new Map([['job', { id: 'job', state }]]);

describe('what a supplier reads', () => {
  it('a courtesy check, with three taps', () => {
    const { state } = given(opened(), away);
    const answer = supplierDayText(
      [matter(lineOf(state, 1).id, 'check')],
      jobs(state),
      SHOP,
      speakerOn('2026-03-11'),
    );
    expect(linesOf(answer)).toEqual([
      'Hello from Marl’s workshop.',
      'A friendly word about what is due with us soon:',
      '• Wheel rims, Larkspur: chroming, with you since 2 March, promised for Fri 13 March',
      'Is that still good? If not, a new date is all we need.',
      'Tap a button or just write. Thank you.',
    ]);
    expect(labelsOf(answer)).toEqual(['On its day', 'Ready', 'Running late']);
  });

  it('a chaser, without a tap for a day that is past', () => {
    const { state } = given(opened(), away);
    const answer = supplierDayText(
      [matter(lineOf(state, 1).id, 'chase')],
      jobs(state),
      SHOP,
      speakerOn('2026-03-16'),
    );
    expect(linesOf(answer)[1]).toBe('These were promised and haven’t reached us yet:');
    expect(labelsOf(answer)).toEqual(['Ready', 'Running late']);
    const again = supplierDayText(
      [matter(lineOf(state, 1).id, 'chase-again')],
      jobs(state),
      SHOP,
      speakerOn('2026-03-19'),
    );
    expect(linesOf(again)[1]).toContain('We wrote a few days ago');
  });

  it('things of one machine that went together in one row', () => {
    const more = { ...sent(the('handlebar'), 'brook', 'chrome'), due: '2026-03-13' };
    const { state } = given(opened(), away, more);
    const about = [matter(lineOf(state, 1).id, 'check'), matter(lineOf(state, 2).id, 'check')];
    const lines = linesOf(supplierDayText(about, jobs(state), SHOP, speakerOn('2026-03-11')));
    expect(lines[2]).toBe(
      '• Wheel rims and handlebar, Larkspur: chroming, with you since 2 March, promised for Fri 13 March',
    );
  });

  it('thanks with the new date it was taken to give', () => {
    const { state } = given(opened(), away);
    const line = lineOf(state, 1);
    const heard = {
      lines: [{ standing: { id: 'job', state }, line, due: '2026-03-20' }],
      out: 1,
      shop: SHOP,
    };
    expect(linesOf(supplierThanks(heard, speakerOn()))).toEqual([
      'Thank you. Noted for Fri 20 March:',
      '• Wheel rims, Larkspur',
    ]);
  });

  it('never the owner, a cost, or another supplier', () => {
    fc.assert(
      fc.property(talks, (talk) => {
        const state = tellings(talk).at(-1)?.state;
        if (!state) throw new Error('a talk opens a job');
        const speaker = speakerOn(lastDayOf(talk));
        for (const supplier of ['brook', 'harlow', 'marsh']) {
          const theirs = Object.values(state.lines)
            .filter((line) => line.supplier === supplier && isOut(line))
            .map((line) => ({ standing: { id: 'job', state }, line }));
          const about = theirs.map(({ line }) => matter(line.id, 'chase'));
          const answers = [
            supplierDayText(about, jobs(state), SHOP, speaker),
            supplierHolds(theirs, SHOP, speaker),
            supplierThanks(
              { lines: theirs.map((each) => ({ ...each, due: null })), out: theirs.length, shop: SHOP },
              speaker,
            ),
          ];
          for (const answer of answers) {
            const text = seenOf(answer);
            expect(text).not.toMatch(/Averill|Tobin|[£€$]|quid/);
            expect(otherNames(text, [])).toEqual([]);
            expectSound(answer);
          }
        }
      }),
      { numRuns: 150 },
    );
  });
});

/** Names of shop's people in a text, save those who may be there. */
const otherNames = (text: string, may: readonly string[]): string[] =>
  Object.values(NAMES).filter((name) => text.includes(name) && !may.includes(name));

function expectSound(answer: Answer): void {
  expect(textOf(answer).trim()).not.toBe('');
  expect(textOf(answer).length).toBeLessThanOrEqual(CHAT_TAKES);
  expect(insidesIn(seenOf(answer))).toEqual([]);
}

describe('what an owner reads', () => {
  const told = given(
    opened(),
    tookOff(the('footrest'), { remedy: 'keep' }),
    pass('stripped'),
    away,
    on('2026-03-20'),
    back(the('wheel rim')),
    { ...sent(the('petrol tank'), 'harlow', 'paint'), due: '2026-04-10' },
    pass('inspected'),
  );

  it('a notice: the news, what was done since, what is in hand, what comes next; nobody named, no costs', () => {
    const notice = told.state.notices.findLast(({ about }) => about === 'passed');
    const answer = noticeText(
      { id: 'job', state: told.state },
      notice?.id ?? '',
      RULES,
      speakerOn('2026-03-20'),
    );
    expect(linesOf(answer)).toEqual([
      'Larkspur',
      'Every part has been looked over, and we know what each one needs.',
      'Back with us: wheel rims.',
      'Away being worked on: petrol tank (painting, expected Fri 10 April).',
      'Next: the parts it needs are ordered.',
      'If you have a question, just write here.',
    ]);
    const shown = releaseText(
      { id: 'job', state: told.state },
      notice?.id ?? '',
      RULES,
      speakerOn('2026-03-20'),
    );
    expect(textOf(shown)).toContain(textOf(answer));
    expect(labelsOf(shown)).toEqual(['Send it', 'Don’t send']);
  });

  it('a question of money: what was found, what is proposed, each cost and all of them', () => {
    const { state } = given(
      opened(),
      found(several(2, 'wheel rim'), {
        conditions: ['rusty'],
        remedy: 'send-out',
        processes: ['chrome'],
        cost: pounds(90, { each: true }),
      }),
      found(the('chain'), {
        conditions: ['stretched'],
        remedy: 'replace',
        cost: pounds(40, { about: true, vat: 'plus' }),
      }),
      { type: 'ask-yes', items: [1, 2] },
    );
    const answer = yesAskedText({ id: 'job', state }, speakerOn());
    expect(linesOf(answer)).toEqual([
      'Larkspur',
      'May we go ahead with this?',
      '• Wheel rims: rusty; to be chromed by a specialist, £90 each, £180 in all',
      '• Chain: stretched; to be replaced, about £40 plus VAT',
      'In all: about £220, VAT to be added where it says so.',
    ]);
    expect(labelsOf(answer)).toEqual([
      'Yes to all',
      'No to all',
      'Let’s talk',
      'Yes: wheel rims',
      'No: wheel rims',
      'Yes: chain',
      'No: chain',
    ]);
    const yes = answer.buttons.flat()[0]?.action;
    expect(yes).toEqual({ do: 'owner-answer', job: 'job', items: [1, 2], outcome: 'yes' });
  });

  it('never a supplier’s name or number, and nothing of our insides', () => {
    fc.assert(
      fc.property(talks, fc.constantFrom(...QUESTION_TOPICS), (talk, about) => {
        const last = tellings(talk).at(-1);
        if (!last) throw new Error('a talk opens a job');
        const { state, events } = last;
        const job = { id: 'job', state };
        const speaker = speakerOn(lastDayOf(talk));
        const question = { about, gate: null, part: 'wheel rim', supplier: null };
        const answers = [
          ...state.notices.map(({ id }) => noticeText(job, id, RULES, speaker)),
          yesAskedText(job, speaker),
          ownerProgress(job, question, RULES, speaker),
          ownerAnswered({ ...job, events }, [], speaker),
        ];
        for (const answer of answers) {
          expect(otherNames(seenOf(answer), ['Mrs Averill'])).toEqual([]);
          expect(seenOf(answer)).not.toContain('01632');
          expectSound(answer);
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe('what a mechanic is told', () => {
  const calendar = { ...DEFAULT_POLICY.calendar, zone: 'Europe/London', holidays: NO_HOLIDAYS };

  it('of a morning: what plating is overdue, whom to ring, what it holds up', () => {
    const { state } = given(opened(), away);
    const found = roundUp([{ id: 'job', state }], '2026-03-16', calendar, DEFAULT_POLICY);
    const lines = linesOf(roundUpText(found, jobs(state), new Map(), speakerOn('2026-03-16')));
    expect(lines[0]).toBe('Overdue – ring them:');
    expect(lines[1]).toBe('Cobnut Plating, 01632 960114: promised for Fri 13 March, 3 days overdue');
    expect(lines[2]).toMatch(/^• wheel rims \(1\): there for chroming since 2 March; holds up “.+”/);
  });

  it('what a supplier wrote, of which thing, and the date it was taken to give', () => {
    const { state } = given(opened(), away, promised(the('wheel rim'), '2026-03-20'));
    const about = [{ due: null, job: 'job', person: 'brook', line: lineOf(state, 1).id, step: '2026-03-20' }];
    const answer = toldText(about, jobs(state), 'Friday week, sorry', speakerOn());
    expect(linesOf(answer)).toEqual([
      'Cobnut Plating, about wheel rims (1) of Larkspur:',
      '“Friday week, sorry”',
      'Taken as a new date: Fri 20 March.',
    ]);
    expect(answer.thread).toEqual({ jobs: ['job'], message: '', item: 1 });
  });

  it('what an owner answered, as it was taken', () => {
    const { state } = given(
      opened(),
      found(the('chain'), { remedy: 'replace', cost: pounds(60) }),
      found(the('wheel rim'), { remedy: 'send-out', processes: ['chrome'], cost: pounds(90) }),
      { type: 'ask-yes', items: [1, 2] },
      [
        { type: 'answer', items: [1], outcome: 'yes', text: null },
        { type: 'answer', items: [2], outcome: 'no', text: null },
      ],
    );
    const about = [{ due: null, job: 'job', person: 'owner-1', line: null, step: 'answered' }];
    expect(linesOf(toldText(about, jobs(state), 'Yes, but not the rims', speakerOn()))).toEqual([
      'Mrs Averill, about Larkspur:',
      '“Yes, but not the rims”',
      'Noted: yes to chain (1); no to wheel rim (2).',
    ]);
  });

  it('of people’s words, however long, no more than a message holds', () => {
    const { state } = given(opened(), away);
    const about = [{ due: null, job: 'job', person: 'brook', line: lineOf(state, 1).id, step: null }];
    expect(textOf(toldText(about, jobs(state), 'so '.repeat(4_000), speakerOn())).length).toBeLessThanOrEqual(
      CHAT_TAKES,
    );
  });
});
