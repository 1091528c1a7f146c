import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuestionTopic } from '../../src/hearing/reading.js';
import { QUESTION_TOPICS } from '../../src/hearing/reading.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import { textOf } from '../../src/wording/answer.js';
import { answerFor } from '../../src/wording/questions/answer-for.js';
import type { Ask } from '../../src/wording/questions/ask.js';
import { found, opened, ordered, pass, pounds, promised, sent, several, the, tookOff } from '../job/talk.js';
import { given, on } from '../support/given.js';
import { lastDayOf, talks, tellings } from '../support/random-job.js';
import { CHAT_TAKES, insidesIn, labelsOf, linesOf, seenOf, speakerOn } from './people.js';

/** Without a forecast, what was promised is all there is to go by. */
const NO_PLANS: Ask['plans'] = new Map();

type Asked = Partial<Pick<Ask, 'item' | 'container' | 'suppliers' | 'full'>> & {
  part?: string;
  supplier?: string;
};

function ask(
  state: Ask['jobs'][number]['state'],
  about: QuestionTopic,
  asked: Asked = {},
  today = '2026-03-16',
) {
  const { part = null, supplier = null, item = null, container = null, suppliers = [], full = false } = asked;
  const question = { about, gate: null, part, supplier };
  return answerFor(
    {
      question,
      item,
      container,
      suppliers,
      jobs: [{ id: 'job', state }],
      policy: DEFAULT_POLICY,
      ...{ plans: NO_PLANS, faults: new Map(), today: null },
      full,
    },
    speakerOn(today),
  );
}

const taken = tookOff(the('footrest'), { remedy: 'keep', stored: 'box 3' });
const away = { ...sent(several(2, 'wheel rim'), 'brook', 'chrome'), due: '2026-03-13' };
const coming = { ...ordered(the('chain'), 'marsh'), due: '2026-04-03' };
const underWay = given(
  opened(),
  taken,
  away,
  coming,
  found(the('magneto'), { remedy: 'repair' }),
  pass('stripped'),
).state;

describe('what’s blocking reassembly?', () => {
  const question = { about: 'blocking' as const, gate: 'reassembled' as const, part: null, supplier: null };
  const asking = {
    question,
    item: null,
    container: null,
    suppliers: [],
    jobs: [{ id: 'job', state: underWay }],
    policy: DEFAULT_POLICY,
    ...{ plans: NO_PLANS, faults: new Map(), today: null },
  };

  it('is answered by who can move it: with whom, since when, how late, what it holds up', () => {
    const answer = answerFor({ ...asking, full: false }, speakerOn('2026-03-16'));
    const [head, out, order, here, now] = linesOf(answer);
    expect(head).toMatch(/^Larkspur: \d+ things in the way of reassembly; \d+ steps wait behind\.$/);
    expect(out).toMatch(
      /^Out: wheel rims \(2\): with Cobnut Plating for chroming since 2 March, promised for Fri 13 March, 3 days overdue; holds up “.+” and \d+ steps after it\.$/,
    );
    expect(order).toMatch(
      /^On order: chain \(3\): on order from Sallow Spares since 2 March, promised for Fri 3 April/,
    );
    expect(here).toBe('To do here: magneto (4): to be repaired here.');
    expect(now).toMatch(/^Can go on now: /);
    expect(labelsOf(answer)).toContain('The rest');
  });

  it('is answered in full when the rest is wanted', () => {
    const lines = linesOf(answerFor({ ...asking, full: true }, speakerOn('2026-03-16')));
    expect(lines.length).toBeGreaterThan(5);
    expect(lines).toEqual(expect.arrayContaining(['Out', 'On order', 'To do here', 'Can go on now']));
  });

  it('offers the gate when nothing is in its way', () => {
    const state = given(opened(), taken, pass('stripped')).state;
    const answer = ask(state, 'blocking');
    expect(linesOf(answer)).toEqual(['Larkspur: nothing is in the way of inspection.']);
    expect(labelsOf(answer)).toEqual(['All inspected']);
  });
});

describe('other questions', () => {
  it('where: a thing put away, a thing out, a thing not listed', () => {
    expect(textOf(ask(underWay, 'where', { item: 1 }))).toBe('footrest (1): in box 3.');
    expect(textOf(ask(underWay, 'where', { container: 'Box 3' }))).toBe('Box 3, Larkspur: footrest (1).');
    expect(textOf(ask(underWay, 'where', { container: 'box 4' }))).toBe('I was told of nothing in box 4.');
    expect(textOf(ask(underWay, 'where', { part: 'wheel rim' }))).toContain(
      'with Cobnut Plating for chroming since 2 March',
    );
    expect(textOf(ask(underWay, 'where', { part: 'dynamo' }))).toBe(
      'No dynamo is on Larkspur’s list. Say “list” to see what is.',
    );
  });

  it('ready: no day before the last one promised, and what can’t be counted on', () => {
    const lines = linesOf(ask(underWay, 'ready'));
    expect(lines[0]).toMatch(
      /^Larkspur: not before Fri 3 April: chain \(3\) is promised then, and about \d+ hours at the bench come after it\.$/,
    );
    expect(lines[1]).toBe('Overdue already: wheel rims (2).');
  });

  it('overdue: with the number to ring', () => {
    const [call, row] = linesOf(ask(underWay, 'overdue'));
    expect(call).toBe('Cobnut Plating, 01632 960114: promised for Fri 13 March, 3 days overdue');
    expect(row).toMatch(/^• wheel rims \(2\): there for chroming since 2 March; holds up .+/);
    expect(textOf(ask(underWay, 'overdue', {}, '2026-03-10'))).toBe('Nothing is overdue.');
  });

  it('cost: what was said so far, and how much of it was agreed', () => {
    const state = given(
      opened(),
      found(several(2, 'wheel rim'), { remedy: 'send-out', cost: pounds(90, { each: true }) }),
      found(the('chain'), { remedy: 'replace' }),
    ).state;
    expect(linesOf(ask(state, 'cost'))).toEqual([
      'Larkspur: £180 by what was said so far.',
      'The owner has said yes to £0 of it.',
      'No price yet for 1 thing to be bought or sent out.',
      '• wheel rims (1): £90 each, £180 in all',
    ]);
  });

  it('holding: what one supplier has, or that they are not known', () => {
    expect(linesOf(ask(underWay, 'holding', { supplier: 'the plater', suppliers: ['brook'] }))).toEqual([
      'Cobnut Plating, 01632 960114: 1 thing',
      '• wheel rims (2): chroming, since 2 March, promised for Fri 13 March, 3 days overdue',
    ]);
    expect(textOf(ask(underWay, 'holding', { supplier: 'Nobody & Co' }))).toBe(
      'I don’t know Nobody & Co. Say “people” to see whom I know.',
    );
  });

  it('history: in the order in which it happened', () => {
    const state = given(opened(), away, on('2026-03-10'), promised(the('wheel rim'), '2026-03-20')).state;
    expect(linesOf(ask(state, 'history', { item: 1 }))).toEqual([
      'wheel rims (1): with Cobnut Plating for chroming since 2 March, promised for Fri 20 March.',
      '• 2 March: decided: send out for chroming',
      '• 2 March: gone to Cobnut Plating for chroming',
      '• 2 March: promised for Fri 13 March',
      '• 10 March: promised for Fri 20 March',
    ]);
  });

  it('photos: those fetched by their hash, and how many are on their way or lost', () => {
    const attachments = ['u1', 'u2', 'u3', 'u4'].map((unique) => ({
      kind: 'photo' as const,
      unique,
      handle: 'h',
    }));
    const state = given(
      opened(),
      found(the('magneto'), { attachments, text: 't1' }),
      { type: 'attachment-fetched', unique: 'u1', hash: 'abc' },
      { type: 'attachment-lost', unique: 'u2', why: 'too-big' },
      { type: 'attachment-lost', unique: 'u4', why: 'no-room' },
    ).state;
    const answer = ask(state, 'photos', { item: 1 });
    expect(answer.photos).toEqual([
      { hash: 'abc', caption: 'magneto (1), 2 March: weeping at the rocker feed' },
    ]);
    expect(linesOf(answer)).toEqual([
      '1 picture.',
      '1 file still on the way; ask again in a minute.',
      '1 file could not be kept: there was no room on the disk. Please send it again when there is.',
      '1 file could not be had: too big, or no longer with the chat service. Please send it again, smaller.',
    ]);
  });
});

it('any question of any job is answered, shortly first, with nothing of our insides', () => {
  fc.assert(
    fc.property(
      talks,
      fc.constantFrom(...QUESTION_TOPICS),
      fc.constantFrom<Asked>({}, { item: 2 }, { part: 'wheel rim' }, { supplier: 'x', suppliers: ['brook'] }),
      (talk, about, asked) => {
        const state = tellings(talk).at(-1)?.state;
        if (!state) throw new Error('a talk opens a job');
        const short = ask(state, about, asked, lastDayOf(talk));
        const full = ask(state, about, { ...asked, full: true }, lastDayOf(talk));
        for (const answer of [short, full]) {
          expect(textOf(answer).trim()).not.toBe('');
          expect(textOf(answer).length).toBeLessThanOrEqual(CHAT_TAKES);
          expect(insidesIn(seenOf(answer))).toEqual([]);
        }
        expect(linesOf(short).length).toBeLessThanOrEqual(5);
        const leavesOut =
          about === 'blocking' ? /; and \d+ more/.test(textOf(short)) : textOf(short) !== textOf(full);
        expect(labelsOf(short).includes('The rest')).toBe(leavesOut);
        expect(labelsOf(full)).not.toContain('The rest');
      },
    ),
    { numRuns: 200 },
  );
});
