import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Incoming } from '../../src/desk/desk.js';
import type { Attachment } from '../../src/job/events.js';
import type { ShopRecord } from '../../src/record/types.js';
import { textOf } from '../../src/wording/answer.js';
import { MECHANIC_CHAT } from '../support/desk.js';
import type { Floor } from './floor.js';
import { expectText, furnish, openFloor, OWNER_CHAT, SUPPLIER_CHAT } from './floor.js';

let floor: Floor;
beforeAll(async () => {
  floor = await openFloor();
  await furnish(floor);
});
afterAll(() => floor.stop());

const photo = (unique: string): Attachment => ({ kind: 'photo', unique, handle: `h-${unique}` });
const items = async () => Object.values((await floor.job()).state.items);
const itemCalled = async (part: string) => (await items()).find((item) => item.part === part);
const version = async () => (await floor.record.events(`job-${(await floor.job()).id}`)).version;

describe('an update', () => {
  it('that comes twice is answered from what was recorded', async () => {
    const message = await floor.incoming(MECHANIC_CHAT, 'chain stretched, new one');
    const first = await floor.hand(message);
    const before = await version();
    expect(await floor.hand(message)).toEqual(first);
    expect(await version()).toBe(before);
  });

  it('is answered as it was recorded, where another came in between', async () => {
    const message = await floor.incoming(MECHANIC_CHAT, 'magneto weak, send it out');
    let isFirst = true;
    const slow = floor.deskOver(({ append }) => ({
      append: async (wanted) => {
        if (isFirst) {
          isFirst = false;
          await floor.mechanic('fuel tap leaking, new one');
        }
        return append(wanted);
      },
    }));
    const answer = await floor.hand(message, slow);
    const number = (await itemCalled('magneto'))?.number;
    expect(number).toBeGreaterThan((await itemCalled('petrol tap'))?.number ?? Infinity);
    expectText(answer, new RegExp(`^${number} · magneto`));
  });

  const cuts: Record<string, (record: ShopRecord) => Partial<ShopRecord>> = {
    'before its append': () => ({ append: () => Promise.reject(new Error('power cut')) }),
    'after its append': ({ append }) => ({
      append: async (wanted) => {
        await append(wanted);
        throw new Error('power cut');
      },
    }),
    'before its end': ({ inbox }) => ({
      inbox: { ...inbox, finish: () => Promise.reject(new Error('power cut')) },
    }),
  };
  it.each(Object.keys(cuts))('cut short %s resumes, and says the same', async (when) => {
    const message = await floor.incoming(MECHANIC_CHAT, `nearside footrest bent, straighten it, ${when}`);
    const dying = floor.deskOver((record) => cuts[when]?.(record) ?? {});
    await expect(floor.hand(message, dying)).rejects.toThrow('power cut');
    const answer = await floor.hand(message);
    const findings = (await itemCalled('footrest'))?.findings.filter(
      ({ message: id }) => id === `mechanic-1-${message.messageId}`,
    );
    expect(findings).toHaveLength(1);
    expect(await floor.hand(message)).toEqual(answer);
    expectText(answer, /footrest: .*bent/i);
  });

  it('cut short after a gate passed is answered as passed, not as passed before', async () => {
    await floor.mechanic('new job: Thistle 500 single, already stripped');
    await floor.mechanic('seat torn, keep it');
    const message = await floor.incoming(MECHANIC_CHAT, 'inspected done');
    const dying = floor.deskOver((record) => ({
      inbox: { ...record.inbox, finish: () => Promise.reject(new Error('power cut')) },
    }));
    await expect(floor.hand(message, dying)).rejects.toThrow('power cut');
    const { state } = await floor.job('Thistle 500 single').catch(() => floor.job('Thistle'));
    expect(state.gates.inspected.passed).toBe(true);
    expect(textOf(await floor.hand(message))).not.toMatch(/already|before/i);
    await floor.mechanic('working on the Larkspur');
  });

  it('of two mechanics at once on one item are both taken', async () => {
    await floor.mechanic('magneto weak');
    const number = (await itemCalled('magneto'))?.number ?? 0;
    const messages = await Promise.all(
      ['rewind it', 'points pitted', 'cracked', 'noisy', 'in box 9'].map((said) =>
        floor.incoming(MECHANIC_CHAT, `${number}: magneto ${said}`),
      ),
    );
    await Promise.all(messages.map((message) => floor.hand(message)));
    const magneto = await itemCalled('magneto');
    expect(magneto?.findings.flatMap(({ conditions }) => conditions)).toEqual(
      expect.arrayContaining(['weak', 'cracked', 'noisy']),
    );
    expect(magneto?.stored).toBe('box 9');
    expect(new Set((await items()).map(({ number: n }) => n)).size).toBe((await items()).length);
  });

  it('of two mechanics at once, each of a new thing, gives each its own number', async () => {
    const before = (await items()).length;
    const said = ['headlamp dented', 'horn missing', 'dynamo seized', 'clutch worn'];
    const messages = await Promise.all(said.map((text) => floor.incoming(MECHANIC_CHAT, text)));
    await Promise.all(messages.map((message) => floor.hand(message)));
    expect(await items()).toHaveLength(before + said.length);
  });
});

describe('an album', () => {
  it('with the words on its second picture puts all pictures to what they speak of', async () => {
    const album = { album: 'a1' };
    await floor.mechanic('', { ...album, attachments: [photo('p1')] });
    await floor.mechanic('rear mudguard dented', { ...album, attachments: [photo('p2')], source: 'caption' });
    await floor.mechanic('', { ...album, attachments: [photo('p3')] });
    const mudguard = await itemCalled('mudguard');
    const noted = (await floor.job()).state.notes.filter(({ item }) => item === mudguard?.number);
    const pictures = [...(mudguard?.findings ?? []), ...noted].flatMap(({ attachments }) =>
      attachments.map(({ unique }) => unique),
    );
    expect(pictures.sort()).toEqual(['p1', 'p2', 'p3']);
  });
});

describe('an edited message', () => {
  it('replaces what it said before', async () => {
    const first = await floor.incoming(MECHANIC_CHAT, 'petrol tank dented, keep it');
    await floor.hand(first);
    const edit: Partial<Incoming> = { messageId: first.messageId, edited: true };
    await floor.mechanic('petrol tank leaking, replace it', edit);
    const tank = await itemCalled('petrol tank');
    expect(tank).toMatchObject({ remedy: 'replace' });
    expect(tank?.findings.flatMap(({ conditions }) => conditions)).toEqual(['leaking']);
    await floor.mechanic('petrol tank rusty, clean it', edit);
    expect((await itemCalled('petrol tank'))?.findings.flatMap(({ conditions }) => conditions)).toEqual([
      'rusty',
    ]);
  });

  it('can be undone, and so can a reply to it', async () => {
    const said = await floor.incoming(MECHANIC_CHAT, 'oil pump worn, rebuild it');
    await floor.hand(said);
    expectText(await floor.mechanic('undo', { replyTo: said.messageId }), /undone|taken back/i);
    expect(await itemCalled('oil pump')).toBeUndefined();
    expectText(await floor.mechanic('undo', { replyTo: said.messageId }), /nothing/i);
  });

  it('undone with its gates: what it had free is blocked again', async () => {
    const { id } = await floor.job();
    await floor.mechanic('new job: Bramble 250 single, already stripped');
    await floor.mechanic('seat good, keep it');
    await floor.mechanic('inspected done');
    const said = await floor.incoming(MECHANIC_CHAT, 'frame cracked');
    await floor.hand(said);
    const bramble = () => floor.job('Bramble 250 single').catch(() => floor.job('Bramble'));
    expect((await bramble()).state.gates.inspected.passed).toBe(false);
    await floor.mechanic('undo', { replyTo: said.messageId });
    expect((await bramble()).state.gates.inspected.passed).toBe(true);
    await floor.press(MECHANIC_CHAT, { do: 'put-on-bench', job: id });
  });
});

describe('words that find no place', () => {
  it('are kept, in whatever script, and answered', async () => {
    for (const text of ['🙂🙂🙂', 'Здравствуйте', 'x'.repeat(4000), 'what']) {
      expect(textOf(await floor.mechanic(text)).length).toBeGreaterThan(0);
    }
    const kept = [
      ...(await floor.record.texts('contact-mechanic-1')).values(),
      ...(await floor.record.texts(`job-${(await floor.job()).id}`)).values(),
    ];
    for (const text of ['🙂🙂🙂', 'Здравствуйте', 'x'.repeat(4000)]) expect(kept).toContain(text);
  });

  it('are kept too where it must be asked which thing is meant', async () => {
    await floor.mechanic('clutch lever bent');
    await floor.mechanic('front wheel rim rusty');
    await floor.mechanic('rear wheel rim rusty');
    const before = await version();
    expectText(await floor.mechanic('wheel rim cracked by the valve hole'), /which/i);
    expect(await version()).toBe(before);
    expect([...(await floor.record.texts('contact-mechanic-1')).values()]).toContain(
      'wheel rim cracked by the valve hole',
    );
  });

  it('forwarded from somebody give no orders', async () => {
    const jobs = (await floor.record.streams()).length;
    await floor.mechanic('new job: Forwarded 500', { forwarded: true });
    await floor.mechanic('undo', { forwarded: true });
    expect((await floor.record.streams()).length).toBe(jobs);
  });
});

describe("an owner's message", () => {
  it('passes nothing of others on, and reaches the mechanics', async () => {
    await floor.write(OWNER_CHAT, 'Please keep the old badge');
    const told = await floor.deliver();
    expect(
      told
        .filter(({ chatId }) => chatId === MECHANIC_CHAT)
        .some(({ text }) => text.includes('Please keep the old badge')),
    ).toBe(true);
    expect(told.filter(({ chatId }) => chatId === SUPPLIER_CHAT)).toEqual([]);
  });

  it('that names one thing apart from the rest is taken so, in either order', async () => {
    for (const [index, said] of [
      'yes to it all but no to the wheel rims',
      'no to the wheel rims, yes to the rest',
    ].entries()) {
      await floor.mechanic(`petrol tank paint it, ${200 + index} quid`);
      await floor.mechanic(`front wheel rim chrome it, ${100 + index} quid`);
      await floor.mechanic(`rear wheel rim chrome it, ${100 + index} quid`);
      const { id } = await floor.job();
      const all = (await items())
        .filter(({ part }) => part === 'petrol tank' || part === 'wheel rim')
        .map(({ number }) => number);
      await floor.press(MECHANIC_CHAT, { do: 'ask-owner', job: id, items: all });
      await floor.write(OWNER_CHAT, said);
      expect(
        (await items()).filter(({ part }) => part === 'wheel rim').map(({ agreement }) => agreement.status),
        said,
      ).toEqual(['no', 'no']);
      expect((await itemCalled('petrol tank'))?.agreement.status, said).toBe('yes');
    }
  });

  it('of yes where nothing was asked agrees to nothing', async () => {
    await floor.mechanic('seat recover it, 150 quid');
    await floor.write(OWNER_CHAT, 'Yes, go ahead');
    expect((await itemCalled('seat'))?.agreement.status).toBe('not-asked');
  });

  it('tapped a month late, of work that was decided anew since, is passed on and no more', async () => {
    const { id } = await floor.job();
    const seat = (await itemCalled('seat'))?.number ?? 0;
    await floor.press(MECHANIC_CHAT, { do: 'ask-owner', job: id, items: [seat] });
    await floor.mechanic('seat no, replace it, 300 quid');
    floor.later(31 * 24 * 3_600_000);
    await floor.press(OWNER_CHAT, { do: 'owner-answer', job: id, items: [seat], outcome: 'yes' });
    expect((await itemCalled('seat'))?.agreement.status).toBe('not-asked');
  });
});
