import { Api } from 'grammy';
import type { ChatEvent } from '../../bot/rehearsal/happenings.js';
import type { Person } from '../../bot/rehearsal/person.js';
import type { Action } from '../../src/wording/answer.js';
import { say } from '../../bot/say.js';
import { DESK_START, MECHANIC_CHAT } from '../support/desk.js';
import type { WholeBot } from '../support/whole-bot.js';
import { openWholeBot } from '../support/whole-bot.js';
import type { Writer } from './strokes.js';

/**
 * A shop with two machines of two owners, each with things out at a supplier of its own. In what is kept of everybody
 * stands a word that is nowhere else: where it turns up in somebody else's chat, something was shown that isn't theirs.
 */
export type Town = WholeBot & {
  people: Record<Writer, Person>;
  otherOwner: Person;
  otherSupplier: Person;
  /** The words that each writer must never see. */
  secrets: Record<Exclude<Writer, 'mechanic'>, readonly string[]>;
  /** Links that were used up. */
  usedSecrets: string[];
};

const OVERDUE_MS = 56 * 24 * 3_600_000;

const OF_ALPHATON = { owner: 'Mrs Quillowner', supplier: 'Plimsupply & Co', finding: 'alphacrack' };
const OF_BRAVOTON = { owner: 'Mr Vexowner', supplier: 'Grimsupply Plating', finding: 'bravocrack' };

/** Sets the town up by talk and buttons, as a shop does; what is seen in its chats is watched from the first word. */
export async function openTown(watch: (event: ChatEvent) => void): Promise<Town> {
  const bot = await openWholeBot([]);
  const { mechanic, rehearsal } = bot;
  rehearsal.on('chat', watch);
  const usedSecrets: string[] = [];
  const tell = async (text: string): Promise<void> => {
    await mechanic.say(text);
    await rehearsal.quiet();
  };
  for (const [title, its, phone] of [
    ['Alphaton', OF_ALPHATON, 111],
    ['Bravoton', OF_BRAVOTON, 222],
  ] as const) {
    await tell(`new job: ${title} 500 single, owner ${its.owner}, already stripped`);
    await tell(`owner ${its.owner}, 01632 960${phone}`);
    await tell(`supplier ${its.supplier}, chrome and paint, 01632 961${phone}`);
    await tell(`working on the ${title}`);
    await tell(`front rim rusty ${its.finding}, send it for chrome, 90 quid`);
    await tell(`tank dented ${its.finding}, send it for paint, 120 quid`);
    await tell('sent the front rim to ' + its.supplier + ', they say 20 April');
    await tell('ask the owner');
  }
  const join = async (name: string, id: number): Promise<Person> => {
    const person = rehearsal.person({ id, firstName: 'Someone', started: true });
    await tell(`invite ${name}`);
    const link = /\?start=([\w-]+)/.exec(mechanic.last()?.text ?? '')?.[1];
    if (link === undefined) throw new Error(`no link for ${name}: ${mechanic.last()?.text ?? ''}`);
    usedSecrets.push(link);
    await person.say(`/start ${link}`);
    await rehearsal.quiet();
    await welcome(bot, link);
    return person;
  };
  const owner = await join(OF_ALPHATON.owner, 2001);
  const otherOwner = await join(OF_BRAVOTON.owner, 2002);
  const supplier = await join(OF_ALPHATON.supplier, 2003);
  const otherSupplier = await join(OF_BRAVOTON.supplier, 2004);
  // Overdue by then: everybody has been asked, told and chased, with the buttons that go with it.
  for (const at of [DESK_START, DESK_START + OVERDUE_MS]) await deliver(bot, at);
  const stranger = rehearsal.person({ id: 2005, firstName: 'Nobody', started: true });
  const all = [OF_ALPHATON, OF_BRAVOTON].flatMap((its) => [
    its.owner.split(' ')[1] ?? '',
    its.supplier.split(' ')[0] ?? '',
    its.finding,
  ]);
  const numbers = ['960111', '961111', '960222', '961222'];
  return {
    ...bot,
    ...{ otherOwner, otherSupplier, usedSecrets, people: { owner, supplier, stranger, mechanic } },
    secrets: {
      stranger: [...all, ...numbers],
      owner: ['Vexowner', 'Grimsupply', 'bravocrack', '960222', '961222', '961111'],
      supplier: ['Vexowner', 'Quillowner', 'Grimsupply', 'bravocrack', '960222', '961222', '960111'],
    },
  };
}

/** Wakes the shop and sends what there is to be sent to those outside, as a worker does. */
async function deliver({ desk, record, rehearsal }: WholeBot, at: number): Promise<void> {
  await desk.wake(at);
  const api = new Api(rehearsal.token, { apiRoot: rehearsal.url });
  for (const { id, chatId } of await record.people.all()) {
    const { events } = await record.events(`contact-${id}`);
    for (const { type, data } of events) {
      if (type !== 'message-intended' || chatId === undefined || chatId === MECHANIC_CHAT) continue;
      const message = (data as { id: string }).id;
      const prepared = await desk.prepareSend(id, message, at);
      if (prepared.outcome !== 'send') continue;
      const { messageId } = await say(api, record, chatId, prepared.answer, message);
      await desk.sent(id, message, { ...prepared, chatMessage: messageId ?? 0 }, at);
    }
  }
}

/** The mechanic's tap on 'that's them', which a worker would have put into the chat. */
async function welcome({ desk, record }: WholeBot, secret: string): Promise<void> {
  const { events } = await record.events('shop');
  const taken = events.findLast(({ type }) => type === 'invitation-taken');
  const action: Action = {
    do: 'settle-guest',
    invitation: (taken?.data as { invitation: string }).invitation,
    welcome: true,
  };
  await desk.press({ key: `w-${secret}`, person: 'mechanic-1', chatId: 501, at: taken?.at ?? 0, action });
}
