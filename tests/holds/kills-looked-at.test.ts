import { describe, expect, it } from 'vitest';
import type { Put } from '../../config/year/answers.js';
import { answersTo } from '../../config/year/answers.js';
import type { Act, Happened } from '../../config/year/journal.js';
import type { Kept } from '../../config/year/invariants/acknowledged.js';
import { leftOf, neverSaid, notKeptOnce } from '../../config/year/invariants/acknowledged.js';
import { wokenTooLate } from '../../config/year/invariants/due.js';
import { neverSent } from '../../config/year/invariants/once.js';
import {
  markedWithoutCause,
  notAsRecorded,
  toldTwice,
  withoutRepeats,
} from '../../config/year/invariants/told-once.js';
import type { Killed } from '../../config/year/kills.js';
import { drawStrike } from '../../config/year/kills.js';
import { notAnsweredAsBefore } from '../../config/year/told-again.js';
import type { MessageOut } from '../../src/contact/state.js';
import type { Recorded } from '../../src/record/types.js';
import { ALL_KILLED } from './killed.js';
import { message } from './seen.js';

const OWNER = 2001;
const act = (over: Partial<Act> = {}): Act => ({
  ...{ kind: 'act', at: 1, chat: 1001, update: 7, how: 'message', message: 3 },
  text: 'on the Wex: dynamo worn, send it for a rewind',
  ...over,
});
const written = (number: number, at = 5, text = 'News', chat = OWNER): Happened => ({
  ...{ kind: 'written', at, chat, message: number, text },
});
const killed = (what: Killed, at = 5): Happened => ({
  kind: 'killed',
  at,
  what,
  when: 'after',
});
const woken: Happened = { kind: 'woken', at: 5 };
const out = (over: Partial<MessageOut> = {}): MessageOut => ({
  ...{
    id: 'm',
    kind: 'notice',
    about: [],
    text: null,
    intendedAt: 5,
    tries: 1,
    attempts: 0,
    doubtful: false,
  },
  ...{ status: 'sent', sentAt: 5, chatMessage: 2, perhapsRepeated: false, why: null },
  ...over,
});
const told = (...kept: MessageOut[]) => ({ who: 'an owner', chat: OWNER, kept });
const marked = out({ perhapsRepeated: true });

describe('a history in which something was said twice', () => {
  const twice = [woken, written(1), killed('send'), written(2)];

  it('is seen without a mark, whatever the words and the time', () => {
    expect(toldTwice(twice, told(out()))).toHaveLength(1);
    const later = [woken, written(1), killed('send'), written(2, 9, 'Other news')];
    expect(toldTwice(later, told(out({ sentAt: 9 })))).toHaveLength(1);
    expect(toldTwice(twice, told(marked))).toEqual([]);
  });

  it('is seen where the mark is another message’s: of another time, or of a copy that there is already', () => {
    expect(
      toldTwice(twice, told(out(), out({ chatMessage: 4, perhapsRepeated: true, intendedAt: 6, sentAt: 8 }))),
    ).toHaveLength(1);
    expect(toldTwice([woken, written(0), ...twice], told(marked))).toHaveLength(1);
  });

  it('is told from answers: one to each thing done, and one more where the bot died', () => {
    const asked = act({ chat: OWNER });
    const other = act({ chat: 1001 });
    expect(toldTwice([asked, written(1)], told())).toEqual([]);
    expect(toldTwice([asked, written(1), written(3)], told())).toHaveLength(1);
    expect(toldTwice([asked, written(1), killed('bot'), written(3)], told())).toEqual([]);
    for (const next of [woken, other]) expect(toldTwice([asked, next, written(1)], told())).toHaveLength(1);
    const spoken = act({ chat: OWNER, isVoice: true });
    expect(toldTwice([spoken, written(1), written(3)], told())).toEqual([]);
    const again: Happened = { kind: 'told-again', at: 5, update: asked.update };
    const retold = (...then: Happened[]) => toldTwice([asked, written(1), woken, again, ...then], told());
    expect(retold(written(3))).toEqual([]);
    expect(retold(other, written(3))).toEqual([]);
    expect(retold(other, killed('bot'), written(3), written(4))).toEqual([]);
    expect(retold(written(3), written(4))).toHaveLength(1);
    expect(retold(woken, written(3))).toHaveLength(1);
    expect(retold(other, other, written(3))).toHaveLength(1);
  });

  it.each(ALL_KILLED.map((what) => [what]))('is told from an answer by who died: %s', (what) => {
    const dies = (isVoice: boolean): Happened[] => [
      act({ chat: OWNER, isVoice }),
      ...(isVoice ? [written(0)] : []),
      ...[written(1), killed(what), written(3)],
    ];
    const answers: readonly Killed[] = ['bot', 'redis'];
    const listens: readonly Killed[] = [...answers, 'workers', 'transcribe'];
    expect(toldTwice(dies(false), told())).toHaveLength(answers.includes(what) ? 0 : 1);
    expect(toldTwice(dies(true), told())).toHaveLength(listens.includes(what) ? 0 : 1);
  });

  it('is told from a long text that goes in pieces', () => {
    const long = 'A line of the shop’s, and another.\n'.repeat(80);
    const asked = act({ chat: OWNER });
    expect(toldTwice([asked, written(1, 5, long), written(2, 5, 'Its end')], told())).toEqual([]);
    expect(toldTwice([asked, written(1, 5, long), written(2, 5, long)], told())).toHaveLength(1);
    expect(toldTwice([asked, written(1, 5, long), written(2, 6, 'Later news')], told())).toHaveLength(1);
  });

  it('is no second message of a day where it is marked', () => {
    const chat = {
      chatId: OWNER,
      messages: [1, 2].map((messageId) => ({ ...message('2026-03-04T09:00:00Z', 'News'), messageId })),
    };
    expect(withoutRepeats(twice, [told(marked)], chat).messages).toHaveLength(1);
    expect(withoutRepeats(twice, [told(out())], chat).messages).toHaveLength(2);
  });

  it('is seen where two messages stand as one, one never came, and a step of a matter is in two', () => {
    const about = [{ due: 'due-1', job: null, person: null, line: null, step: null }];
    expect(notAsRecorded([written(2)], told(out(), out({ id: 'n' })))).toHaveLength(1);
    expect(notAsRecorded([], told(out()))).toHaveLength(1);
    const both = told(out({ about }), out({ about, id: 'n', chatMessage: 3 }));
    expect(notAsRecorded([written(2), written(3)], both)).toHaveLength(1);
    expect(notAsRecorded([written(2)], told(out({ about })))).toEqual([]);
  });
});

describe('a mark', () => {
  it('needs a death of whoever sends, after its message was intended and before it was seen', () => {
    const cause = (...happened: Happened[]) => markedWithoutCause(happened, [told(marked)]);
    expect(cause(written(1), written(2))).toHaveLength(1);
    expect(cause(killed('bot'), written(2))).toHaveLength(1);
    expect(cause(killed('send', 4), written(2))).toHaveLength(1);
    expect(cause(written(2), killed('send'))).toHaveLength(1);
    expect(cause(killed('send'), written(2))).toEqual([]);
    expect(cause({ kind: 'unanswered', at: 5, chat: OWNER }, written(2))).toEqual([]);
    expect(cause({ kind: 'unanswered', at: 5, chat: 1001 }, written(2))).toHaveLength(1);
  });

  it('needs one for itself', () => {
    const two = told(marked, out({ id: 'n', chatMessage: 3, perhapsRepeated: true }));
    expect(markedWithoutCause([killed('send'), written(2), written(3)], [two])).toHaveLength(1);
    expect(markedWithoutCause([killed('send'), killed('send'), written(2), written(3)], [two])).toEqual([]);
    const other = {
      who: 'a supplier',
      chat: 2002,
      kept: [out({ id: 'n', chatMessage: 3, perhapsRepeated: true })],
    };
    const call: Happened = { kind: 'unanswered', at: 5, chat: OWNER };
    const seen = [written(2), written(3, 5, 'News', 2002)];
    expect(markedWithoutCause([killed('send'), call, ...seen], [told(marked), other])).toEqual([]);
    expect(markedWithoutCause([call, call, ...seen], [told(marked), other])).toHaveLength(1);
  });
});

describe('a message that was acknowledged', () => {
  const event = (type: string, over: Partial<Recorded> = {}): Recorded => ({
    ...{
      id: 'job-1.4',
      version: 4,
      type,
      schema: 1,
      data: { item: 1 },
      at: 1,
      by: 'mechanic-1',
      command: 'u7-0',
    },
    ...over,
  });
  const kept = (...left: Recorded[]): Kept => ({
    ...{ act: act(), answers: [], inbox: { state: 'done', result: null } },
    left,
  });

  it('is seen where it was not finished, or stands twice', () => {
    const once = event('finding-logged');
    expect(notKeptOnce([kept(once)])).toEqual([]);
    expect(notKeptOnce([{ ...kept(once), inbox: { state: 'begun', reading: null } }])).toHaveLength(1);
    expect(
      notKeptOnce([kept(once, event('cost-noted'), event('cost-noted', { id: 'job-1.5' }))]),
    ).toHaveLength(1);
  });

  it('is known by its update’s own number, and nothing stands there that nobody said', () => {
    const events = [event('finding-logged'), event('item-listed', { command: 'u70-0' })];
    const [found] = leftOf([act()], events);
    expect(found?.left.map(({ type }) => type)).toEqual(['finding-logged']);
    expect(neverSaid([act()], events)).toHaveLength(1);
    expect(neverSaid([act(), act({ update: 70 })], events)).toEqual([]);
  });

  it('has what was written next in its chat for answers, but not what was sent there', () => {
    const asked = act({ chat: OWNER });
    const after = [asked, written(1), written(2, 5, 'Sent'), written(3, 5, 'Other', 1001)];
    expect(answersTo(after, asked)).toEqual(after.slice(1, 3));
    expect(answersTo(after, asked, ({ message }) => message === 2)).toEqual([after[1]]);
    const shown: Happened = { kind: 'shown', at: 5, chat: OWNER, message: 1, text: '' };
    expect(answersTo([asked, shown, act({ chat: OWNER }), written(2)], asked)).toEqual([shown]);
    for (const next of [woken, act()]) expect(answersTo([asked, next, written(1)], asked)).toEqual([]);
  });

  it('told again is seen where it moves a stream, tells somebody else, or is not answered, or otherwise', () => {
    const same = { shop: 4 };
    const said = (text: string): Put => ({ kind: 'written', at: 9, chat: OWNER, message: 9, text });
    const shown: Put = { ...said('Its tank'), kind: 'shown' };
    const again = (...texts: string[]) => ({
      ...{ act: act({ chat: OWNER }), isTold: true, answers: [said('News')] },
      put: texts.map(said),
    });
    expect(notAnsweredAsBefore([again('News')], same, same)).toEqual([]);
    expect(notAnsweredAsBefore([again('News')], same, { shop: 5 })).toHaveLength(1);
    expect(notAnsweredAsBefore([again('News')], same, { ...same, 'job-2': 1 })).toHaveLength(1);
    expect(notAnsweredAsBefore([again('Other')], same, same)).toHaveLength(1);
    expect(notAnsweredAsBefore([again()], same, same)).toHaveLength(1);
    expect(notAnsweredAsBefore([{ ...again(), answers: [] }], same, same)).toEqual([]);
    const withPicture = { ...again('News'), answers: [said('News'), shown] };
    expect(notAnsweredAsBefore([withPicture], same, same)).toHaveLength(1);
    const putAgain = (...put: Put[]) => notAnsweredAsBefore([{ ...withPicture, put }], same, same);
    expect(putAgain(said('News'), shown)).toEqual([]);
    expect(putAgain(said('News'), shown, shown)).toHaveLength(1);
    const picture = act({ chat: OWNER, isInAlbum: true });
    expect(notAnsweredAsBefore([{ ...again(), act: picture }], same, same)).toEqual([]);
    expect(notAnsweredAsBefore([{ ...again('News'), isTold: false }], same, same)).toHaveLength(1);
    expect(notAnsweredAsBefore([again('News', 'News')], same, same)).toHaveLength(1);
    expect(notAnsweredAsBefore([{ ...again('News'), act: act(), answers: [] }], same, same)).toHaveLength(1);
  });
});

describe('a message that was due', () => {
  it('is seen where it never went', () => {
    expect(neverSent('an owner', [out({ status: 'intended' })])).toHaveLength(1);
    expect(neverSent('an owner', [out({ status: 'dropped' }), out()])).toEqual([]);
  });
});

describe('a job with something due', () => {
  it('is seen where it is woken for it never, or too late', () => {
    const place = (reckoned: number | null, indexed: number | null) => [{ job: 'job-1', reckoned, indexed }];
    for (const indexed of [null, 6]) expect(wokenTooLate(place(5, indexed))).toHaveLength(1);
    for (const fine of [place(5, 5), place(5, 4), place(null, 9), place(null, null)])
      expect(wokenTooLate(fine)).toEqual([]);
  });
});

describe('what dies', () => {
  const points = Array.from({ length: 400 }, (_, name) => ({ during: 'wake' as const, name: `${name}` }));
  const chances = { talk: 0, wake: 0.2, chaser: 0.5, file: 0 };
  const drawn = (seed: number) => points.map((point) => drawStrike(seed, point, chances, 'apart'));

  it('hangs on seed and point alone', () => {
    expect(drawn(3)).toEqual(drawn(3));
    expect(drawn(3)).not.toEqual(drawn(4));
    // In another order, and with some left out: each point is its own.
    expect(
      points
        .slice(50)
        .reverse()
        .map((point) => drawStrike(3, point, chances, 'apart')),
    ).toEqual(drawn(3).slice(50).reverse());
  });

  it('dies as often as the chances say', () => {
    const strikes = drawn(5).filter((each) => each !== null);
    const chasing = strikes.filter(({ when }) => when === 'as-it-chases');
    // Of 400: 80 in wakes, and half of the rest in a chaser; four standard deviations each way.
    expect(Math.abs(strikes.length - chasing.length - 80)).toBeLessThan(32);
    expect(Math.abs(chasing.length - 160)).toBeLessThan(40);
    const talk = points.map(({ name }) => drawStrike(5, { during: 'talk', name }, chances, 'joint'));
    expect(talk.filter((each) => each !== null)).toEqual([]);
  });
});
