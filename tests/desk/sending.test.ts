import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MECHANIC_CHAT } from '../support/desk.js';
import type { Delivered, Floor } from './floor.js';
import {
  DAY,
  eventsOf,
  furnish,
  intended,
  openFloor,
  OWNER_CHAT,
  SUPPLIER_CHAT,
  at,
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

describe('a wake', () => {
  it('twice says nothing twice, nor do two at once', async () => {
    await rimOut();
    await floor.desk.wake(at('2026-03-16T09:00Z'));
    await floor.desk.wake(at('2026-03-16T09:00Z'));
    await Promise.all([floor.desk.wake(at('2026-03-16T09:05Z')), floor.desk.wake(at('2026-03-16T09:05Z'))]);
    const sent = await floor.deliver(at('2026-03-16T09:06Z'));
    expect(toSupplier(sent)).toHaveLength(1);
    expect(sent.filter(({ chatId, text }) => chatId === MECHANIC_CHAT && /overdue/i.test(text))).toHaveLength(
      1,
    );
    expect(toSupplier(await wake('2026-03-16T15:00Z'))).toEqual([]);
  });

  it('puts all that a supplier has, of all jobs, into the day’s one message', async () => {
    await rimOut();
    await floor.mechanic('new job: Thistle 500 single');
    await floor.mechanic('headlamp rim rusty, sent it to Brindlewick for chrome, back by 13 March');
    const sent = toSupplier(await wake('2026-03-16T09:00Z'));
    expect(sent).toHaveLength(1);
    expect(sent[0]?.text).toMatch(/rim/);
    expect(sent[0]?.text).toMatch(/Headlamp/);
  });

  it('writes to a supplier in their hours alone, and is set for when they open', async () => {
    await rimOut();
    for (const early of ['2026-03-14T12:00Z', '2026-03-15T12:00Z', '2026-03-16T08:59Z'])
      expect(toSupplier(await wake(early))).toEqual([]);
    const { id } = await floor.job();
    const next = (await floor.record.due.until(at('2027-01-01T00:00Z'))).find(
      ({ stream }) => stream === `job-${id}`,
    );
    expect(new Date(next?.at ?? 0).toISOString()).toBe('2026-03-16T09:00:00.000Z');
    await floor.desk.wake(at('2026-03-16T17:30Z'));
    const later = (await floor.record.due.until(at('2027-01-01T00:00Z'))).find(
      ({ stream }) => stream === `job-${id}`,
    );
    expect(new Date(later?.at ?? 0).toISOString()).toBe('2026-03-17T09:00:00.000Z');
    expect(toSupplier(await wake('2026-03-17T09:00Z'))).toHaveLength(1);
  });

  it('chases again three working days after the first went, then leaves it to the mechanic', async () => {
    await rimOut();
    expect(toSupplier(await wake('2026-03-16T09:00Z'))).toHaveLength(1);
    expect(toSupplier(await wake('2026-03-18T09:00Z'))).toEqual([]);
    expect(toSupplier(await wake('2026-03-19T09:00Z'))).toHaveLength(1);
    for (const day of ['20', '23', '24', '25', '30'])
      expect(toSupplier(await wake(`2026-03-${day}T10:00Z`))).toEqual([]);
    expect(toMechanic(await wake('2026-03-31T07:00Z'))).toMatch(/01632 960123/);
  });

  it('after three weeks away says what fits the day, once', async () => {
    await rimOut();
    const sent = await wake('2026-04-01T10:00Z');
    expect(toSupplier(sent)).toHaveLength(1);
    expect(toSupplier(await wake('2026-04-01T11:00Z'))).toEqual([]);
    expect(toSupplier(await wake('2026-04-02T10:00Z'))).toEqual([]);
  });

  it('drafts a word to the owner after a long silence, and shows it to the mechanic first', async () => {
    await floor.mechanic('seat torn');
    const sent = await wake('2026-03-16T08:00Z');
    expect(sent.filter(({ chatId }) => chatId === OWNER_CHAT)).toEqual([]);
    const { id, state } = await floor.job();
    expect(state.notices.map(({ about }) => about)).toEqual(['silence']);
    expect(await eventsOf(floor, id, 'notice-drafted')).toHaveLength(1);
    expect(sent.filter(({ chatId }) => chatId === MECHANIC_CHAT).length).toBeGreaterThan(0);
    const notice = state.notices[0]?.id ?? '';
    floor.later(14 * DAY);
    await floor.press(MECHANIC_CHAT, { do: 'release-notice', job: id, notice });
    const released = await wake('2026-03-16T10:00Z');
    expect(released.filter(({ chatId }) => chatId === OWNER_CHAT)).toHaveLength(1);
    expect((await wake('2026-03-16T12:00Z')).filter(({ chatId }) => chatId === OWNER_CHAT)).toEqual([]);
  });
});

describe('a message about to go', () => {
  const chase = async (): Promise<string> => {
    await rimOut();
    await floor.desk.wake(at('2026-03-16T09:00Z'));
    const [message] = (await intended(floor.record, supplier)).filter((id) => id.startsWith('day-'));
    if (message === undefined) throw new Error('a chaser is intended');
    return message;
  };
  const status = async (message: string): Promise<string[]> =>
    (await floor.record.events(`contact-${supplier}`)).events
      .filter(({ data }) => (data as { id?: string }).id === message)
      .map(({ type }) => type);
  const now = at('2026-03-16T09:01Z');

  it('is dropped where the matter was settled in the meantime', async () => {
    const message = await chase();
    await floor.mechanic('front rim back from Brindlewick');
    expect(await floor.desk.prepareSend(supplier, message, now)).toEqual({ outcome: 'drop' });
    expect(await status(message)).toEqual(['message-intended', 'message-dropped']);
    expect(await floor.desk.prepareSend(supplier, message, now)).toEqual({ outcome: 'already-sent' });
  });

  it('is dropped where they answered, or gave another date, in the meantime', async () => {
    const message = await chase();
    floor.later(14 * DAY);
    await floor.write(SUPPLIER_CHAT, 'Sorry, it will be Friday');
    expect(await floor.desk.prepareSend(supplier, message, now)).toEqual({ outcome: 'drop' });
  });

  it('goes once', async () => {
    const message = await chase();
    expect(toSupplier(await floor.deliver(now))).toHaveLength(1);
    expect(await status(message)).toEqual(['message-intended', 'message-attempted', 'message-sent']);
    expect(toSupplier(await floor.deliver(now))).toEqual([]);
  });

  it('after a crash between attempt and answer goes once more, marked; and after two no more', async () => {
    const message = await chase();
    expect(await floor.desk.prepareSend(supplier, message, now)).toMatchObject({
      outcome: 'send',
      perhapsRepeated: false,
    });
    expect(await floor.desk.prepareSend(supplier, message, now)).toMatchObject({
      outcome: 'send',
      perhapsRepeated: true,
    });
    expect(await floor.desk.prepareSend(supplier, message, now)).toEqual({ outcome: 'drop' });
    expect(await status(message)).toEqual([
      'message-intended',
      'message-attempted',
      'message-attempted',
      'message-failed',
    ]);
    expect(toMechanic(await floor.deliver(now))).toMatch(/Brindlewick/);
  });

  it('turned away is no repeat; without an answer it may be', async () => {
    const message = await chase();
    for (const [why, perhapsRepeated] of [
      ['turned-away', false],
      ['no-answer', true],
    ] as const) {
      const prepared = await floor.desk.prepareSend(supplier, message, now);
      if (prepared.outcome !== 'send') throw new Error('it is still to go');
      await floor.desk.postponed(supplier, message, why, prepared.attempt, now);
      const again = await floor.desk.prepareSend(supplier, message, now);
      expect(again).toMatchObject({ outcome: 'send', perhapsRepeated });
      if (again.outcome === 'send')
        await floor.desk.postponed(supplier, message, 'turned-away', again.attempt, now);
    }
  });

  it('too late for its hours goes on the next working day, with what else is due then', async () => {
    const message = await chase();
    const evening = at('2026-03-16T18:00Z');
    expect(await floor.desk.prepareSend(supplier, message, evening)).toEqual({ outcome: 'drop' });
    await floor.mechanic('headlamp rim rusty, sent it to Brindlewick for chrome, back by 16 March');
    expect(toSupplier(await wake('2026-03-17T08:30Z'))).toEqual([]);
    const sent = toSupplier(await wake('2026-03-17T09:00Z'));
    expect(sent).toHaveLength(1);
    expect(sent[0]?.text).toMatch(/Front wheel rim[^]*Headlamp rim/);
    expect(sent[0]?.perhapsRepeated).toBe(false);
    expect(toSupplier(await wake('2026-03-17T12:00Z'))).toEqual([]);
  });

  it('to an owner waits for the morning too', async () => {
    const { id } = await floor.job();
    await floor.mechanic('seat recover it, 150 quid');
    await floor.press(MECHANIC_CHAT, { do: 'ask-owner', job: id, items: [1] });
    await floor.desk.wake(at('2026-03-02T19:59Z'));
    const toOwner = async (time: string) =>
      (await floor.deliver(at(time))).filter(({ chatId }) => chatId === OWNER_CHAT);
    expect(await toOwner('2026-03-02T20:00Z')).toEqual([]);
    await floor.desk.wake(at('2026-03-03T07:59Z'));
    expect(await toOwner('2026-03-03T07:59Z')).toEqual([]);
    await floor.desk.wake(at('2026-03-03T08:00Z'));
    expect(await toOwner('2026-03-03T08:00Z')).toHaveLength(1);
  });

  it('counts the second chaser from when the first went', async () => {
    const message = await chase();
    const late = at('2026-03-17T15:00Z');
    const prepared = await floor.desk.prepareSend(supplier, message, late);
    if (prepared.outcome !== 'send') throw new Error('it is still to go');
    await floor.desk.sent(supplier, message, { ...prepared, chatMessage: 1 }, late);
    expect(toSupplier(await wake('2026-03-19T10:00Z'))).toEqual([]);
    expect(toSupplier(await wake('2026-03-20T10:00Z'))).toHaveLength(1);
  });
});
