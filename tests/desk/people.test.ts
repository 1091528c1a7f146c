import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { textOf } from '../../src/wording/answer.js';
import { MECHANIC_CHAT } from '../support/desk.js';
import type { Floor } from './floor.js';
import { DAY, expectText, furnish, openFloor, OWNER_CHAT, SUPPLIER_CHAT } from './floor.js';

let floor: Floor;
beforeAll(async () => {
  floor = await openFloor();
  await furnish(floor);
});
afterAll(() => floor.stop());

const invitation = async (name: string): Promise<string> =>
  floor.linkIn(await floor.mechanic(`invite ${name}`));
const take = (secret: string, chatId: number, at = floor.now()) =>
  floor.desk.takeInvitation({ key: `t-${secret}-${chatId}-${at}`, chatId, name: 'A Stranger', secret, at });

describe('who writes', () => {
  it('calls a mechanic of the settings as the chat does, and nobody else', async () => {
    for (const chatId of [MECHANIC_CHAT, OWNER_CHAT]) {
      const visit = floor.desk.visit(chatId, `named-${chatId}`);
      const who = await visit.who();
      if (who.kind === 'person') await visit.calledInChat(who.person, 'Bo from the chat');
    }
    expect(await floor.desk.who(MECHANIC_CHAT)).toMatchObject({ name: 'Bo from the chat' });
    expect(await floor.desk.who(OWNER_CHAT)).toMatchObject({ name: 'Mrs Quillfeather' });
  });

  it('is known by the chat alone', async () => {
    expect(await floor.desk.who(MECHANIC_CHAT)).toMatchObject({ kind: 'person', speaksAs: 'mechanic' });
    expect(await floor.desk.who(OWNER_CHAT)).toMatchObject({
      kind: 'person',
      speaksAs: 'owner',
      name: 'Mrs Quillfeather',
    });
    expect(await floor.desk.who(SUPPLIER_CHAT)).toMatchObject({ kind: 'person', speaksAs: 'supplier' });
    expect(await floor.desk.who(999)).toEqual({ kind: 'stranger' });
  });

  it('is let in once, however often the service starts', async () => {
    const before = (await floor.record.events('shop')).version;
    await floor.desk.letIn([MECHANIC_CHAT], floor.now());
    expect((await floor.record.events('shop')).version).toBe(before);
  });

  it('speaks in the part last written to, where they have two', async () => {
    await floor.mechanic('supplier Mr Bothways, paint');
    await floor.mechanic('owner Mr Bothways');
    await floor.join('Mr Bothways', 603);
    const who = await floor.desk.who(603);
    expect(who).toMatchObject({ roles: ['supplier', 'owner'], speaksAs: 'owner' });
  });
});

describe('an invitation', () => {
  it('is for one chat, once, and lets nobody in before a mechanic says so', async () => {
    await floor.mechanic('owner Mr Onceonly');
    const secret = await invitation('Mr Onceonly');
    expectText(await take(secret, 610), /workshop has been asked/);
    expect(await floor.desk.who(610)).toEqual({ kind: 'stranger' });
    expectText(await take(secret, 611), /used|taken/i);
    const told = await floor.deliver();
    expect(
      told
        .filter(({ chatId }) => chatId === MECHANIC_CHAT)
        .map(({ text }) => text)
        .join('\n'),
    ).toContain('A Stranger');
  });

  it('of somebody turned away is spent, and leaves nothing of them', async () => {
    await floor.mechanic('owner Mr Turnaway');
    const secret = await invitation('Mr Turnaway');
    await take(secret, 612);
    const { events } = await floor.record.events('shop');
    const { invitation: id } = events.findLast(({ type }) => type === 'invitation-taken')?.data as {
      invitation: string;
    };
    await floor.press(MECHANIC_CHAT, { do: 'settle-guest', invitation: id, welcome: false });
    expect(await floor.desk.who(612)).toEqual({ kind: 'stranger' });
    expect((await floor.record.people.all()).filter(({ address }) => address === '612')).toEqual([]);
    expectText(await take(secret, 612), /used|taken/i);
  });

  it('runs out after seven days', async () => {
    await floor.mechanic('owner Mr Toolate');
    const secret = await invitation('Mr Toolate');
    expectText(await take(secret, 613, floor.now() + 8 * DAY), /run out/);
  });

  it('that was made up is none', async () => {
    expectText(await take('made-up', 614), /isn’t there/);
  });

  it('is nowhere at rest in the clear', async () => {
    await floor.mechanic('owner Mr Hush');
    const secret = await invitation('Mr Hush');
    expect(await everything(floor)).not.toContain(`link/${secret}`);
  });

  it('asked for twice by one update is one invitation, and the same link', async () => {
    await floor.mechanic('owner Mr Twice');
    const message = await floor.incoming(MECHANIC_CHAT, 'invite Mr Twice');
    const links = [floor.linkIn(await floor.hand(message)), floor.linkIn(await floor.hand(message))];
    expect(links[1]).toBe(links[0]);
    const { events } = await floor.record.events('shop');
    expect(events.filter(({ command }) => command.startsWith(`${message.key}-invite`))).toHaveLength(1);
    expectText(await take(links[1] ?? '', 615), /workshop has been asked/);
  });

  it('welcomed is settled whatever died in between', async () => {
    await floor.mechanic('owner Mr Halfway');
    const secret = await invitation('Mr Halfway');
    await take(secret, 616);
    const { events } = await floor.record.events('shop');
    const { invitation: id } = events.findLast(({ type }) => type === 'invitation-taken')?.data as {
      invitation: string;
    };
    const action = { do: 'settle-guest', invitation: id, welcome: true } as const;
    const pressed = { key: 'halfway', person: 'mechanic-1', chatId: MECHANIC_CHAT, at: floor.now(), action };
    for (const dies of ['put', 'forget'] as const) {
      const dying = floor.deskOver((record) => ({
        people: { ...record.people, [dies]: () => Promise.reject(new Error('power cut')) },
      }));
      await expect(dying.press(pressed)).rejects.toThrow('power cut');
    }
    expectText(await floor.desk.press(pressed), /Mr Halfway/);
    expect(await floor.desk.who(616)).toMatchObject({ name: 'Mr Halfway' });
  });
});

describe('a button', () => {
  it('pressed by someone who has lost their part, or never had it, does nothing', async () => {
    const { id } = await floor.job();
    for (const chat of [OWNER_CHAT, SUPPLIER_CHAT]) {
      expectText(await floor.press(chat, { do: 'pass-gate', job: id, gate: 'stripped' }), /not|isn’t/i);
    }
    const before = (await floor.record.events(`job-${id}`)).version;
    await floor.press(SUPPLIER_CHAT, { do: 'owner-answer', job: id, items: [1], outcome: 'yes' });
    const stranger = { key: 'x', person: 'nobody', chatId: 1, at: floor.now() };
    await floor.desk.press({ ...stranger, action: { do: 'undo', job: id, message: 'm' } });
    expect((await floor.record.events(`job-${id}`)).version).toBe(before);
  });
});

describe('somebody forgotten', () => {
  it('is nowhere: neither name nor numbers nor words', async () => {
    await floor.mechanic('supplier Pargeter Chroming, chrome, 01632 960777');
    await floor.mechanic('front rim rusty, sent it to Pargeter Chroming, back by 20 March');
    await floor.mechanic('PARGETER CHROMING is slow, but pargeter chromings is another');
    await floor.join('Pargeter Chroming', 620);
    await floor.write(620, 'The zinnia bath is broken, see you in Quarndon');
    await floor.deliver();
    await floor.mechanic('what has Pargeter Chroming got of ours?');
    const before = await everything(floor);
    for (const trace of ['Pargeter Chroming', '960777', 'zinnia', '"chatId":620'])
      expect(before).toContain(trace);

    expectText(await floor.mechanic('forget Pargeter Chroming'), /Go ahead\?/);
    const person =
      (await floor.record.people.all()).find(({ name }) => name === 'Pargeter Chroming')?.id ?? '';
    expectText(await floor.press(MECHANIC_CHAT, { do: 'forget', person }), /Pargeter Chroming is forgotten/);

    const after = (await everything(floor)).toLowerCase();
    for (const trace of ['960777', 'zinnia', 'quarndon', '"chatid":620']) expect(after).not.toContain(trace);
    expect(after.replaceAll('pargeter chromings', '')).not.toContain('pargeter chroming');
    expect(await floor.desk.who(620)).toEqual({ kind: 'stranger' });
  });

  it('is not in updates kept raw either: neither their own, whatever they hold, nor others’ with their name in them', async () => {
    await floor.mechanic('supplier Otterbourne Trim, upholstery, 01632 960778');
    await floor.join('Otterbourne Trim', 622);
    await floor.write(622, 'The saddle is with us');
    const raw = (id: number, text: string) => ({
      update_id: id,
      message: { message_id: id, from: { id, first_name: 'Bo' }, chat: { id, type: 'private' }, text },
    });
    await floor.record.chatMessages.put(622, 9, { jobs: [], message: 'w1' });
    await floor.record.chatMessages.put(6220, 9, { jobs: [], message: 'w1' });
    await floor.desk.poisoned('u900', raw(622, 'never understood'), floor.now());
    await floor.desk.poisoned('u901', raw(MECHANIC_CHAT, 'what is OTTERBOURNE TRIM up to'), floor.now());
    await floor.desk.poisoned('u902', raw(6220, 'another’s trouble'), floor.now());
    const kept = async () => (await floor.record.inbox.poisoned()).map(({ key }) => key);
    expect(await kept()).toEqual(expect.arrayContaining(['u900', 'u901', 'u902']));

    const person =
      (await floor.record.people.all()).find(({ name }) => name === 'Otterbourne Trim')?.id ?? '';
    await floor.press(MECHANIC_CHAT, { do: 'forget', person });
    expect(await floor.record.chatMessages.get(6220, 9)).not.toBeNull();
    expect((await kept()).filter((key) => key.startsWith('u90'))).toEqual(['u902']);
    const after = await everything(floor);
    for (const trace of ['never understood', ':622:', ':622,', ':622}']) expect(after).not.toContain(trace);
  });

  it('leaves the job as it was, and is spoken of without a name', async () => {
    const { state } = await floor.job();
    expect(Object.values(state.lines)).toHaveLength(1);
    expectText(await floor.mechanic('where is the front rim?'), /former contact/);
  });

  it('presses no buttons any more, and is sent nothing', async () => {
    await floor.mechanic('supplier Mr Gone, paint');
    await floor.join('Mr Gone', 621);
    const who = await floor.desk.who(621);
    const person = who.kind === 'person' ? who.person : '';
    await floor.press(MECHANIC_CHAT, { do: 'forget', person });
    const answer = await floor.desk.press({
      key: 'gone',
      person,
      chatId: 621,
      at: floor.now(),
      action: { do: 'supplier-says', lines: [], says: 'ready' },
    });
    expect(textOf(answer)).toMatch(/not|isn’t/i);
    expect((await floor.deliver()).filter(({ chatId }) => chatId === 621)).toEqual([]);
  });
});

/** All that Redis holds, values of every kind, as one text. */
async function everything({ redis }: Floor): Promise<string> {
  const client = redis.connect();
  const parts: string[] = [];
  for (const key of await client.keys('*')) {
    parts.push(key);
    switch (await client.type(key)) {
      case 'string':
        parts.push((await client.get(key)) ?? '');
        break;
      case 'hash':
        parts.push(JSON.stringify(await client.hgetall(key)));
        break;
      case 'set':
        parts.push(JSON.stringify(await client.smembers(key)));
        break;
      case 'zset':
        parts.push(JSON.stringify(await client.zrange(key, 0, -1)));
        break;
      case 'list':
        parts.push(JSON.stringify(await client.lrange(key, 0, -1)));
        break;
      case 'stream':
        parts.push(JSON.stringify(await client.xrange(key, '-', '+')));
        break;
      default:
        throw new Error(`${key} is of a kind that this test can't read`);
    }
  }
  // Hashes and streams hold JSON within JSON.
  return parts.join('\n').replaceAll('\\', '');
}
