import { describe, expect, it } from 'vitest';
import type { CommitOptions, Decision } from '../../src/record/commit.js';
import { commit, StreamBusyError } from '../../src/record/commit.js';
import type { Fold } from '../../src/record/fold.js';
import { readState } from '../../src/record/fold.js';
import type { ShopRecord } from '../../src/record/types.js';
import { useBench } from './support.js';

const bench = useBench();

type Put = { type: 'put'; schema: number; data: number };
type Undone = { type: 'undone'; schema: number; data: { version: number } };
type ShelfEvent = Put | Undone;
type Shelf = readonly number[];

const put = (data: number): Put => ({ type: 'put', schema: 1, data });

/** A shelf that numbers are put on; an undone event takes a put back as if it had never been. */
function shelfFold(evolved: number[] = []): Fold<Shelf, ShelfEvent> {
  const fold: Fold<Shelf, ShelfEvent> = {
    initial: [],
    evolve: (shelf, event) => {
      evolved.push(event.version);
      return event.type === 'put' ? [...shelf, event.data] : shelf;
    },
    refoldOn: (event) => event.type === 'undone',
    foldAll: (events) => {
      const undone = new Set(events.map((event) => (event.type === 'undone' ? event.data.version : 0)));
      return events.filter(({ version }) => !undone.has(version)).reduce(fold.evolve, fold.initial);
    },
  };
  return fold;
}

function shelve(commandId: string, n: number): CommitOptions<Shelf, ShelfEvent, string> {
  return {
    ...{ stream: 'job-1', commandId, at: 1, by: 'p', fold: shelfFold() },
    decide: (shelf) => (shelf.includes(n) ? { refusal: `${n} is there` } : { events: [put(n)] }),
    pace: { pause: () => Promise.resolve() },
  };
}

/** A record whose append does something else first, or instead. */
function withAppend(record: ShopRecord, append: (real: ShopRecord['append']) => ShopRecord['append']) {
  return { ...record, append: append(record.append) };
}

describe('a commit', () => {
  it('decides on the state, appends, and gives the state after', async () => {
    const record = bench.open();
    await commit(record, shelve('a', 4));
    const done = await commit(record, shelve('b', 5));
    expect(done).toMatchObject({
      outcome: 'done',
      state: [4, 5],
      version: 2,
      events: [{ version: 2, data: 5 }],
    });
    expect(await readState(record, 'job-1', shelfFold())).toEqual({ version: 2, state: [4, 5] });
  });

  it('shows what is to come before it is appended, and anew where somebody else was quicker', async () => {
    const plain = bench.open();
    const story: (string | Shelf)[] = [];
    let isFirst = true;
    const record = withAppend(plain, (real) => async (append) => {
      if (isFirst) await real({ ...append, commandId: 'quicker', events: [put(7)] });
      isFirst = false;
      // Whoever foresees is asked while this waits.
      await new Promise((resolve) => setImmediate(resolve));
      const appended = await real(append);
      story.push(appended.outcome);
      return appended;
    });
    const foresee = (after: Shelf): void => void story.push(after);
    const done = await commit(record, { ...shelve('a', 4), foresee });
    expect(story).toEqual([[4], 'conflict', [7, 4], 'appended']);
    expect(done.outcome === 'done' && done.state).toBe(story[2]);
  });

  it('passes a refusal on and writes nothing', async () => {
    const record = bench.open();
    await commit(record, shelve('a', 4));
    expect(await commit(record, shelve('b', 4))).toEqual({ outcome: 'refused', refusal: '4 is there' });
    expect((await record.load('job-1')).version).toBe(1);
    expect(await record.seen('job-1', 'b')).toBeNull();
  });

  it('tells a command that comes again that it was seen, though the state would refuse it now', async () => {
    const record = bench.open();
    await commit(record, shelve('a', 4));
    await commit(record, shelve('b', 5));
    const seen = {
      outcome: 'seen',
      state: [4, 5],
      version: 2,
      events: [{ version: 1, data: 4, command: 'a' }],
    };
    expect(await commit(record, shelve('a', 4))).toMatchObject(seen);
    expect(await commit(record, { ...shelve('a', 4), decide: () => ({ events: [put(9)] }) })).toMatchObject(
      seen,
    );
  });

  it('decides again on what another wrote first', async () => {
    const record = bench.open();
    let rivals = 3;
    const contested = withAppend(record, (append) => async (mine) => {
      if (rivals > 0) await commit(record, shelve(`rival-${rivals}`, (rivals -= 1)));
      return append(mine);
    });
    const states: Shelf[] = [];
    const { decide, ...options } = shelve('a', 9);
    const done = await commit(contested, {
      ...options,
      decide: (shelf, version) => {
        states.push(shelf);
        return decide(shelf, version);
      },
    });
    expect(states).toEqual([[], [2], [2, 1], [2, 1, 0]]);
    expect(done).toMatchObject({ outcome: 'done', state: [2, 1, 0, 9], version: 4 });
  });

  it('gives up with StreamBusyError when it is always too late', async () => {
    const conflict = { outcome: 'conflict', version: 0 } as const;
    const busy = withAppend(bench.open(), () => () => Promise.resolve(conflict));
    await expect(commit(busy, shelve('a', 1))).rejects.toThrow(StreamBusyError);
  });

  it.each([
    ['before it was written', (real: ShopRecord['append']) => real],
    ['after it was written', undefined],
  ])('sends the same append again when the connection is lost %s', async (_when, lose) => {
    const record = bench.open();
    const sent: unknown[] = [];
    const flaky = withAppend(record, (append) => async (mine) => {
      sent.push(mine);
      if (sent.length > 1) return append(mine);
      if (lose === undefined) await append(mine);
      throw new Error('Connection is closed.');
    });
    const answer = await commit(flaky, shelve('a', 4));
    expect(answer).toMatchObject({ state: [4], version: 1, events: [{ data: 4 }] });
    expect(answer.outcome).toBe(lose === undefined ? 'seen' : 'done');
    expect(sent[1]).toEqual(sent[0]);
  });

  it('throws at once on an error that is no lost connection, and at last on one that stays', async () => {
    let tries = 0;
    const failing = (message: string) =>
      withAppend(bench.open(), () => () => {
        tries += 1;
        return Promise.reject(new Error(message));
      });
    await expect(commit(failing('a bug'), shelve('a', 4))).rejects.toThrow('a bug');
    expect(tries).toBe(1);
    await expect(commit(failing('Connection is closed.'), shelve('a', 4))).rejects.toThrow('closed');
    expect(tries).toBe(7);
  });

  it('reckons effects and due time from the state after', async () => {
    const record = bench.open();
    const decision: Decision<ShelfEvent, string> = {
      ...{ events: [put(4)], texts: { t: 'word' }, dueAt: 1 },
      effects: [{ id: 'own', queue: 'send', data: {} }],
    };
    await commit(record, {
      ...shelve('a', 4),
      decide: () => decision,
      follow: (after, [event]) => ({
        dueAt: after.length * 1000,
        effects: [{ id: `wake-${event?.id}`, queue: 'wake', data: {} }],
      }),
    });
    const effects = await record.outbox.read('relay', { count: 9, blockMs: 1 });
    expect(effects.map(({ effect }) => effect.id)).toEqual(['own', 'wake-job-1.1']);
    expect([await record.due.next(), (await record.texts('job-1')).get('t')]).toEqual([1000, 'word']);
  });
});

describe('the state kept in the process', () => {
  it('folds only what is new, also what another process wrote', async () => {
    const record = bench.open();
    const evolved: number[] = [];
    const fold = shelfFold(evolved);
    for (const n of [1, 2, 3]) await commit(record, { ...shelve(`c-${n}`, n), fold });
    expect(evolved).toEqual([1, 2, 3]);
    await commit(bench.open({ shop: record.shop }), shelve('elsewhere', 4));
    expect(await readState(record, 'job-1', fold)).toEqual({ version: 4, state: [1, 2, 3, 4] });
    expect(evolved).toEqual([1, 2, 3, 4]);
  });

  it('folds from the beginning when an event changes what earlier ones mean', async () => {
    const record = bench.open();
    const fold = shelfFold();
    const undo: Undone = { type: 'undone', schema: 1, data: { version: 1 } };
    for (const n of [1, 2]) await commit(record, { ...shelve(`c-${n}`, n), fold });
    const done = await commit(record, {
      ...shelve('undo', 0),
      fold,
      decide: () => ({ events: [undo, put(3)] }),
    });
    expect(done).toMatchObject({ outcome: 'done', state: [2, 3] });
    expect((await readState(record, 'job-1', fold)).state).toEqual([2, 3]);
    const undoElsewhere = { ...undo, data: { version: 2 } };
    const elsewhere = bench.open({ shop: record.shop });
    await commit(elsewhere, { ...shelve('undo-2', 0), decide: () => ({ events: [undoElsewhere] }) });
    expect((await readState(record, 'job-1', fold)).state).toEqual([3]);
  });

  it('begins anew when the stream was replaced by a shorter one', async () => {
    const record = bench.open();
    const fold = shelfFold();
    for (const n of [1, 2]) await commit(record, { ...shelve(`c-${n}`, n), fold });
    await bench.redis.del(...(await bench.redis.keys(`*{${record.shop}}*`)));
    expect(await readState(record, 'job-1', fold)).toEqual({ version: 0, state: [] });
    await commit(bench.open({ shop: record.shop }), shelve('new', 7));
    expect(await readState(record, 'job-1', fold)).toEqual({ version: 1, state: [7] });
  });
});

it('keeps one gapless sequence under fifty appenders at once, and loses none of their words', async () => {
  const record = bench.open();
  const rivals = Array.from({ length: 50 }, (_, n) => {
    const own = bench.open({ shop: record.shop });
    return commit(own, { ...shelve(`c-${n}`, n), pace: {} });
  });
  const outcomes = await Promise.all(rivals);
  expect(outcomes.map(({ outcome }) => outcome)).toEqual(Array(50).fill('done'));
  const { events, version } = await record.load('job-1');
  expect(version).toBe(50);
  expect(events.map((event) => event.version)).toEqual(Array.from({ length: 50 }, (_, n) => n + 1));
  expect(events.map(({ data }) => data as number).sort((a, b) => a - b)).toEqual([...Array(50).keys()]);
});
