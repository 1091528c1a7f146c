import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { intended } from './floor.js';
import type { Delivered, Floor } from './floor.js';
import {
  expectText,
  furnish,
  openFloor,
  OWNER_CHAT,
  sendRim,
  SUPPLIER_CHAT,
  toMechanic,
  wakeAndDeliver,
} from './floor.js';
import type { Incoming } from '../../src/desk/desk.js';
import { textOf } from '../../src/wording/answer.js';
import { MECHANIC_CHAT } from '../support/desk.js';

// People, machines and what is written are invented; behaviour only.

let floor: Floor;
beforeEach(async () => {
  floor = await openFloor();
  await furnish(floor);
});
afterEach(() => floor.stop());

const standing = async (title?: string): Promise<string[]> =>
  Object.values((await floor.job(title)).state.items).map(
    ({ part, agreement }) => `${part} ${agreement.status}`,
  );
const toOwner = (sent: readonly Delivered[]): string[] =>
  sent.filter(({ chatId }) => chatId === OWNER_CHAT).map(({ text }) => text);
const idOf = async (chat: number): Promise<string> => {
  const who = await floor.desk.who(chat);
  return who.kind === 'person' ? who.person : '';
};
const askAboutTank = async (): Promise<void> => {
  await floor.mechanic('petrol tank rusty, send it for paint, 130 quid');
  await floor.mechanic('ask the owner');
};
const photo = { kind: 'photo' as const, unique: 'p1', handle: 'h1' };

describe('an owner with two machines', () => {
  beforeEach(async () => {
    await floor.mechanic('new job: Thistle Ace, owner Mrs Quillfeather, already stripped');
    await floor.mechanic('magneto weak, send it for a rewind, 140 quid');
    await floor.mechanic('ask the owner');
    await wakeAndDeliver(floor, '2026-03-02T12:00:00Z');
  });

  it('answers the question that stands before them, without naming the machine', async () => {
    await floor.write(OWNER_CHAT, 'Yes please');
    expect(await standing('Thistle Ace')).toEqual(['magneto yes']);
  });

  it('is asked which is meant where both wait for a word, and is passed on all the same', async () => {
    await floor.mechanic('on the Larkspur: petrol tank rusty, send it for paint, 130 quid');
    await floor.mechanic('working on the Larkspur');
    await floor.mechanic('ask the owner');
    await wakeAndDeliver(floor, '2026-03-02T13:00:00Z');
    expectText(
      await floor.write(OWNER_CHAT, 'Yes please, and mind the transfers'),
      /Which machine do you mean/,
    );
    expect(toMechanic(await floor.deliver())).toMatch(/mind the transfers/);
    expect(await standing('Thistle Ace')).toEqual(['magneto asked']);
    await floor.write(OWNER_CHAT, 'Yes to the Thistle');
    await floor.write(OWNER_CHAT, 'On the Thistle: yes to all of it');
    expect(await standing('Thistle Ace')).toEqual(['magneto yes']);
    expect(await standing('Larkspur')).toEqual(['petrol tank asked']);
  });

  it('says nothing of one machine’s question by a word about the other', async () => {
    await floor.mechanic('on the Larkspur: petrol tank rusty, send it for paint, 130 quid');
    await floor.mechanic('working on the Larkspur');
    await floor.mechanic('ask the owner');
    await wakeAndDeliver(floor, '2026-03-02T13:00:00Z');
    await floor.write(OWNER_CHAT, 'On the Thistle: OK');
    expect(await standing('Thistle Ace')).toEqual(['magneto asked']);
    await floor.write(OWNER_CHAT, 'On the Larkspur: OK');
    expect(await standing('Larkspur')).toEqual(['petrol tank yes']);
  });

  it('means no machine by a word that holds a title', async () => {
    await floor.write(OWNER_CHAT, 'On the Thistle: yes to all of it');
    expectText(await floor.write(OWNER_CHAT, 'Is the larkspurs bed in flower?'), /Which machine do you mean/);
  });
});

describe('an owner’s message', () => {
  it('forwarded is passed on, and answers nothing', async () => {
    await askAboutTank();
    await wakeAndDeliver(floor, '2026-03-02T12:00:00Z');
    await floor.write(OWNER_CHAT, 'Yes to all of it, please go ahead', { forwarded: true });
    expect(await standing()).toEqual(['petrol tank asked']);
    expect(toMechanic(await floor.deliver())).toMatch(/Yes to all of it/);
  });

  it('edited stands as it reads now', async () => {
    await askAboutTank();
    await floor.mechanic('magneto weak, send it for a rewind, 140 quid');
    await floor.mechanic('ask the owner');
    await wakeAndDeliver(floor, '2026-03-02T12:00:00Z');
    await floor.write(OWNER_CHAT, 'Yes to the tank', { messageId: 77 });
    expect(await standing()).toEqual(['petrol tank yes', 'magneto asked']);
    await floor.write(OWNER_CHAT, 'Yes to the magneto', { messageId: 77, edited: true });
    expect(await standing()).toEqual(['petrol tank asked', 'magneto yes']);
  });

  it('that is a picture without words is kept with the machine and told', async () => {
    await floor.write(OWNER_CHAT, '', { source: 'caption', attachments: [photo] });
    expect((await floor.job()).state.notes.flatMap(({ attachments }) => attachments)).toEqual([photo]);
    expect(toMechanic(await floor.deliver())).toMatch(/picture or voice note, without words/);
  });

  it('by a button of which nothing stands any more agrees to nothing, and says so to both', async () => {
    await askAboutTank();
    await wakeAndDeliver(floor, '2026-03-02T12:00:00Z');
    const { id } = await floor.job();
    await floor.mechanic('undo');
    await floor.mechanic('undo');
    const answer = await floor.press(OWNER_CHAT, { do: 'owner-answer', job: id, items: [1], outcome: 'yes' });
    expectText(answer, /has changed since we asked/);
    const told = toMechanic(await floor.deliver());
    expect(told).toMatch(/has changed since they were asked/);
    expect(told).not.toMatch(/Yes, by button/);
    expect((await standing()).filter((each) => / yes$/.test(each))).toEqual([]);
  });
});

describe('a machine that passes to another owner', () => {
  it('is not spoken of to the one before, though a message to them waits to go', async () => {
    await askAboutTank();
    await floor.desk.wake(Date.parse('2026-03-02T12:00:00Z'));
    const before = await idOf(OWNER_CHAT);
    const waiting = await intended(floor.record, before);
    await floor.mechanic('owner Mr Yarwood, Larkspur');
    const { state } = await floor.job();
    expect(state.owner).not.toBe(before);
    const sent = await floor.deliver(Date.parse('2026-03-02T12:01:00Z'));
    expect(waiting.length).toBeGreaterThan(0);
    expect(toOwner(sent)).toEqual([]);
  });

  it('takes no answer of the one before', async () => {
    await askAboutTank();
    await wakeAndDeliver(floor, '2026-03-02T12:00:00Z');
    const { id } = await floor.job();
    await floor.mechanic('owner Mr Yarwood, Larkspur');
    await floor.press(OWNER_CHAT, { do: 'owner-answer', job: id, items: [1], outcome: 'yes' });
    await floor.write(OWNER_CHAT, 'Yes to all of it');
    expect(await standing()).toEqual(['petrol tank asked']);
  });
});

describe('questions', () => {
  it('asked for one after the other in the evening go as one in the morning', async () => {
    await askAboutTank();
    await floor.mechanic('magneto weak, send it for a rewind, 140 quid');
    await floor.mechanic('ask the owner');
    const sent = toOwner(await wakeAndDeliver(floor, '2026-03-03T08:00:00Z'));
    expect(sent).toHaveLength(1);
    expect(sent[0]).toMatch(/petrol tank[^]*magneto/i);
    expect(toOwner(await wakeAndDeliver(floor, '2026-03-03T08:05:00Z'))).toEqual([]);
  });

  it('that reached nobody, as the bot was stopped, go again when it is started anew, once', async () => {
    await askAboutTank();
    await floor.desk.wake(Date.parse('2026-03-02T12:00:00Z'));
    const owner = await idOf(OWNER_CHAT);
    const now = Date.parse('2026-03-02T12:00:00Z');
    for (const message of await intended(floor.record, owner)) {
      const prepared = await floor.desk.prepareSend(owner, message, now);
      if (prepared.outcome === 'send') await floor.desk.failed(owner, message, '403', now);
    }
    expect(toMechanic(await floor.deliver(now))).toMatch(/Mrs Quillfeather did not reach them/);
    expect(toOwner(await wakeAndDeliver(floor, '2026-03-02T12:30:00Z'))).toEqual([]);
    await floor.write(OWNER_CHAT, 'when will it be ready?');
    const again = toOwner(await floor.deliver(now));
    expect(again).toHaveLength(1);
    expect(again[0]).toMatch(/May we go ahead/);
    await floor.write(OWNER_CHAT, 'I was away, sorry');
    expect(toOwner(await floor.deliver(now))).toEqual([]);
  });

  it('that failed so and were settled otherwise do not go again', async () => {
    await askAboutTank();
    const now = Date.parse('2026-03-02T12:00:00Z');
    await floor.desk.wake(now);
    const owner = await idOf(OWNER_CHAT);
    for (const message of await intended(floor.record, owner)) {
      const prepared = await floor.desk.prepareSend(owner, message, now);
      if (prepared.outcome === 'send') await floor.desk.failed(owner, message, '403', now);
    }
    await floor.mechanic('owner agreed to all of it');
    await floor.write(OWNER_CHAT, 'when will it be ready?');
    expect(toOwner(await floor.deliver(now))).toEqual([]);
  });
});

describe('an album of pictures', () => {
  const part = (count: number): Partial<Incoming> => ({
    source: 'caption',
    album: 'a1',
    attachments: [{ kind: 'photo', unique: `p${count}`, handle: `h${count}` }],
  });
  const kept = async (): Promise<string[]> =>
    (await floor.job()).state.notes.flatMap(({ attachments }) => attachments.map(({ unique }) => unique));

  it.each([OWNER_CHAT, SUPPLIER_CHAT])(
    'from chat %i is kept whole, told once and answered once',
    async (chat) => {
      await sendRim(floor);
      await floor.deliver();
      const answers = [
        await floor.write(chat, 'this is how it was', part(1)),
        await floor.write(chat, '', part(2)),
        await floor.write(chat, '', part(3)),
      ];
      expect(await kept()).toEqual(['p1', 'p2', 'p3']);
      expect(answers.filter((answer) => textOf(answer) !== '')).toHaveLength(1);
      const told = (await floor.deliver()).filter(({ chatId }) => chatId === MECHANIC_CHAT);
      expect(told).toHaveLength(1);
    },
  );

  it('is another where its id is another', async () => {
    await floor.write(OWNER_CHAT, '', part(1));
    await floor.write(OWNER_CHAT, '', { ...part(2), album: 'a2' });
    expect((await floor.deliver()).filter(({ chatId }) => chatId === MECHANIC_CHAT)).toHaveLength(2);
  });
});

describe('somebody who is both owner and supplier', () => {
  it('is heard by voice in the part that they write in', async () => {
    await floor.mechanic('supplier Mrs Quillfeather, upholstery');
    await askAboutTank();
    await wakeAndDeliver(floor, '2026-03-02T12:00:00Z');
    const { key, ...note } = await floor.incoming(OWNER_CHAT, '');
    await floor.record.inbox.begin(`${key}-heard`, { key, ...note });
    await floor.desk.transcribed(key, { text: 'yes to all of it', doubts: [] });
    expect(await standing()).toEqual(['petrol tank yes']);
  });
});
