import { describe, expect, it } from 'vitest';
import type { Put } from '../../config/year/answers.js';
import { sayAgain } from '../../config/year/ending.js';
import { mayBeForgotten, notKeptOnce } from '../../config/year/invariants/acknowledged.js';
import type { Act, Happened } from '../../config/year/journal.js';
import type { Dice } from '../../config/year/names.js';
import type { InboxState } from '../../src/record/types.js';

const MECHANIC = 1001;
const OWNER = 2001;
/** Forgotten at the fiftieth second. */
const gone = [{ traces: ['Wexcombe', '01632 960555'], chat: OWNER, at: 50 }];
const act = (over: Partial<Act> = {}): Act => ({
  ...{ kind: 'act', at: 40_000, chat: MECHANIC, update: 7, how: 'message', message: 3, text: 'what’s next?' },
  ...over,
});
const put = (text: string, over: Partial<Put> = {}): Put => ({
  ...{ kind: 'written', at: 40_000, chat: MECHANIC, message: 4, text },
  ...over,
});
const NEW: InboxState = { state: 'new' };
const DONE: InboxState = { state: 'done', result: null };

describe('a message of which nothing is known any more', () => {
  const isExcused = (over: Partial<Act>, answers: Put[] = [], inbox: InboxState = NEW): boolean =>
    mayBeForgotten({ act: act(over), answers, inbox }, gone);

  it.each<[string, boolean]>([
    ['theirs', isExcused({ chat: OWNER })],
    ['one that named them', isExcused({ text: 'Mrs Wexcombe rang' })],
    ['one with their number', isExcused({ text: 'ring back on 01632 960555' })],
    ['one that was answered with their name', isExcused({}, [put('News'), put('Mrs Wexcombe waits')])],
  ])('may have gone with somebody who was forgotten: %s', (_what, excused) => {
    expect(excused).toBe(true);
  });

  it.each<[string, boolean]>([
    ['another’s, with another’s answer', isExcused({}, [put('News')])],
    ['theirs, after they were forgotten', isExcused({ chat: OWNER, at: 60_000 })],
    ['one that named them after that', isExcused({ text: 'Wexcombe rang', at: 60_000 })],
    ['one that is known to be finished', isExcused({ chat: OWNER }, [], DONE)],
    ['one that was never finished', isExcused({ chat: OWNER }, [], { state: 'begun', reading: null })],
  ])('is seen else: %s', (_what, excused) => {
    expect(excused).toBe(false);
  });

  it('is seen as not finished, unless it is one that may have gone', () => {
    const lost = (text: string) =>
      notKeptOnce([{ act: act({ text }), answers: [], inbox: NEW, left: [] }], gone);
    expect(lost('Wexcombe rang')).toEqual([]);
    expect(lost('what’s next?')).toHaveLength(1);
  });
});

describe('what is told again at the end', () => {
  /** A bot that is told of updates again, and answers by their numbers. */
  function stageOf(happened: Happened[], inboxes: Record<string, InboxState>, answers: Record<number, Put>) {
    const told: number[] = [];
    const record = {
      streams: () => Promise.resolve([]),
      people: { all: () => Promise.resolve([]) },
      inbox: { find: (key: string) => Promise.resolve(inboxes[key] ?? NEW) },
    };
    const redeliver = (update: number): boolean => {
      told.push(update);
      const answer = answers[update];
      if (answer) happened.push(answer);
      return true;
    };
    const stage = { record, rehearsal: { redeliver }, driver: { quiet: () => Promise.resolve() } };
    return { stage: stage as unknown as Parameters<typeof sayAgain>[0], told };
  }
  const dice = { pick: <T>([first]: readonly T[]) => first } as Dice;

  it('is also what was said before somebody was forgotten, but what went with them', async () => {
    const named = act({ text: 'Wexcombe rang' });
    const other = act({ update: 8 });
    const happened = [named, put('Noted', { message: 4 }), other, put('Nothing', { message: 5 })];
    const inboxes = { u8: DONE };
    const { stage, told } = stageOf(happened, inboxes, { 8: put('Nothing') });
    expect(await sayAgain(stage, happened, dice, gone)).toEqual([]);
    expect(told).toEqual([8]);
    const silent = stageOf(happened.slice(0, 4), inboxes, {});
    expect(await sayAgain(silent.stage, happened.slice(0, 4), dice, gone)).toHaveLength(1);
  });

  it('is answered to somebody forgotten as to a stranger, if their words are still known', async () => {
    const theirs = (over: Partial<Act>) => act({ chat: OWNER, ...over });
    const line = put('A workshop’s own line', { chat: OWNER });
    const happened = (): Happened[] => [
      ...[theirs({ text: 'Yes to all', update: 9 }), put('Thank you', { chat: OWNER })],
      ...[theirs({ text: 'Any news?', update: 10, at: 60_000 }), line],
    ];
    const again = async (answer: Put): Promise<string[]> => {
      const all = happened();
      const { stage } = stageOf(all, { u9: DONE, u10: DONE }, { 9: answer, 10: line });
      return sayAgain(stage, all, dice, gone);
    };
    expect(await again(line)).toEqual([]);
    expect(await again(put('The Garwick is ready', { chat: OWNER }))).toHaveLength(1);
  });
});
