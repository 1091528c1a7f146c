import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { textOf } from '../../src/wording/answer.js';
import { MECHANIC_CHAT } from '../support/desk.js';
import type { Delivered, Floor } from './floor.js';
import {
  DAY,
  furnish,
  openFloor,
  SUPPLIER_CHAT,
  toSupplier,
  toMechanic,
  sendRim,
  wakeAndDeliver,
} from './floor.js';

let floor: Floor;
let supplier: string;
beforeEach(async () => {
  floor = await openFloor();
  await furnish(floor);
  const who = await floor.desk.who(SUPPLIER_CHAT);
  supplier = who.kind === 'person' ? who.person : '';
});
afterEach(() => floor.stop());

const rimOut = (due?: string): Promise<void> => sendRim(floor, due);
const wake = (time: string): Promise<Delivered[]> => wakeAndDeliver(floor, time);

describe("a supplier's word", () => {
  it('about a machine that went home is kept and passed on', async () => {
    await rimOut();
    const { id } = await floor.job();
    await floor.mechanic('front rim back from Brindlewick');
    const store = floor.record;
    await store.append({
      stream: `job-${id}`,
      expectedVersion: (await store.events(`job-${id}`)).version,
      commandId: 'gone-home',
      events: [{ type: 'handed-over', schema: 1, data: { on: '2026-03-10' } }],
      at: floor.now(),
      by: 'mechanic-1',
    });
    await floor.write(SUPPLIER_CHAT, 'Did the Larkspur rim turn out well?');
    expect(toMechanic(await floor.deliver())).toMatch(/Did the Larkspur rim turn out well\?/);
    expect([...(await store.texts(`contact-${supplier}`)).values()]).toContain(
      'Did the Larkspur rim turn out well?',
    );
  });

  it('with a new date moves the promise and restarts the ladder', async () => {
    await rimOut();
    expect(toSupplier(await wake('2026-03-16T09:00Z'))).toHaveLength(1);
    floor.later(14 * DAY + 3 * 3_600_000);
    await floor.write(SUPPLIER_CHAT, 'Sorry, now the 27th of March');
    const { state } = await floor.job();
    expect(Object.values(state.lines)[0]?.promises.at(-1)).toMatchObject({ due: '2026-03-27', by: supplier });
    expect(toSupplier(await wake('2026-03-19T10:00Z'))).toEqual([]);
    expect(toSupplier(await wake('2026-03-25T10:00Z'))).toHaveLength(1);
    expect(toSupplier(await wake('2026-03-30T10:00Z'))).toHaveLength(1);
  });

  it('tapped: that it is ready stops the chasing', async () => {
    await rimOut('20 March');
    expect(toSupplier(await wake('2026-03-18T09:00Z'))).toHaveLength(1);
    const { id, state } = await floor.job();
    const [line] = Object.keys(state.lines);
    floor.later(16 * DAY + 3 * 3_600_000);
    await floor.press(SUPPLIER_CHAT, {
      do: 'supplier-says',
      lines: [{ job: id, line: line ?? '' }],
      says: 'ready',
    });
    for (const day of ['23', '26']) expect(toSupplier(await wake(`2026-03-${day}T09:00Z`))).toEqual([]);
  });

  it('is only about their own: a tap on another’s line does nothing', async () => {
    await rimOut();
    await floor.mechanic('supplier Zennor Paint, paint');
    await floor.join('Zennor Paint', 640);
    const { id, state } = await floor.job();
    const [line] = Object.keys(state.lines);
    const before = (await floor.record.events(`job-${id}`)).version;
    await floor.press(640, { do: 'supplier-says', lines: [{ job: id, line: line ?? '' }], says: 'late' });
    await floor.write(640, 'the front rim will be Friday');
    expect((await floor.record.events(`job-${id}`)).version).toBe(before);
  });
});

describe('a supplier with lines of several machines', () => {
  beforeEach(async () => {
    await rimOut('27 March');
    await floor.mechanic('new job: Ace, owner Mr Yarwood, already stripped');
    await floor.mechanic('front rim rusty, sent it to Brindlewick for chrome, back by 27 March');
  });
  const dues = async (title: string): Promise<(string | undefined)[]> =>
    Object.values((await floor.job(title)).state.lines).map(({ promises }) => promises.at(-1)?.due);
  const larkspur = async (): Promise<string> => (await floor.job()).state.title;

  it('means the one they name', async () => {
    await floor.write(SUPPLIER_CHAT, 'the Ace rim will be Friday 20 March');
    expect([await dues('Ace'), await dues(await larkspur())]).toEqual([['2026-03-20'], ['2026-03-27']]);
  });

  it('names none by a word that holds a title', async () => {
    await floor.write(SUPPLIER_CHAT, 'I’ll place the rims in the tank again, Friday 20 March');
    expect([await dues('Ace'), await dues(await larkspur())]).toEqual([['2026-03-20'], ['2026-03-20']]);
  });
});

describe('a supplier’s dates', () => {
  const dues = async (): Promise<Record<string, string | undefined>> => {
    const { items, lines } = (await floor.job()).state;
    return Object.fromEntries(
      Object.values(lines).map(({ item, promises }) => [items[item]?.part ?? '', promises.at(-1)?.due]),
    );
  };
  beforeEach(async () => {
    await rimOut('27 March');
    await floor.mechanic('clutch lever rusty, sent it to Brindlewick for chrome, back by 27 March');
  });
  const both = { 'wheel rim': '2026-03-27', 'clutch lever': '2026-03-27' };

  it('are each of the thing they are said of', async () => {
    const answer = await floor.write(
      SUPPLIER_CHAT,
      'the rim will be Friday 20 March and the clutch lever on 31 March',
    );
    expect(await dues()).toEqual({ 'wheel rim': '2026-03-20', 'clutch lever': '2026-03-31' });
    expect(textOf(answer)).toMatch(/Noted for Fri 20 March:[^]*rim[^]*Noted for Tue 31 March:[^]*lever/i);
    expect(toMechanic(await floor.deliver())).toMatch(
      /new dates: Fri 20 March for .*rim.*; Tue 31 March for .*lever/i,
    );
  });

  it('are not of a thing that is ready', async () => {
    await floor.write(SUPPLIER_CHAT, 'the rim is ready, the clutch lever will be 31 March');
    expect(await dues()).toEqual({ ...both, 'clutch lever': '2026-03-31' });
  });

  it.each(['We posted it on Friday', 'Rims sent on the 13th', 'Collected on Monday'])(
    'are none where they tell of what was done: “%s”',
    async (words) => {
      await floor.write(SUPPLIER_CHAT, words);
      expect(await dues()).toEqual(both);
    },
  );

  it('are none in what they forward, which is passed on', async () => {
    await floor.write(SUPPLIER_CHAT, 'the rim will be 20 March', { forwarded: true });
    expect(await dues()).toEqual(both);
    expect(toMechanic(await floor.deliver())).toMatch(/will be 20 March/);
  });

  it('are of all where one is said of nothing', async () => {
    await floor.write(SUPPLIER_CHAT, 'Sorry, it will be 31 March');
    expect(await dues()).toEqual({ 'wheel rim': '2026-03-31', 'clutch lever': '2026-03-31' });
  });
});

describe('undoing a hand-over', () => {
  it('puts the machine back on the shop’s list', async () => {
    const { id } = await floor.job();
    const machine = await floor.job();
    const shop = async () => (await floor.record.events('shop')).events.map(({ type }) => type);
    await floor.mechanic('seat good, keep it');
    for (const step of machine.state.steps)
      await floor.press(MECHANIC_CHAT, { do: 'fit-step', job: id, step: step.id });
    for (const check of machine.state.checks)
      await floor.press(MECHANIC_CHAT, { do: 'do-check', job: id, check: check.id });
    for (const gate of ['inspected', 'parts-ordered', 'sublet-out', 'reassembled'] as const) {
      await floor.press(MECHANIC_CHAT, { do: 'pass-gate', job: id, gate });
    }
    await floor.mechanic('road tested, all good');
    await floor.press(MECHANIC_CHAT, { do: 'pass-gate', job: id, gate: 'road-tested' });
    const gone = await floor.incoming(MECHANIC_CHAT, 'handed over');
    await floor.hand(gone);
    expect((await floor.job()).state.status).toBe('handed-over');
    expect((await shop()).at(-1)).toBe('job-closed');
    await floor.press(MECHANIC_CHAT, { do: 'undo', job: id, message: `mechanic-1-${gone.messageId}` });
    expect((await floor.job()).state.status).toBe('open');
    expect((await shop()).at(-1)).toBe('job-reopened');
  });
});
