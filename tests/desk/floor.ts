import { pino } from 'pino';
import { expect } from 'vitest';
import type { Desk, Incoming } from '../../src/desk/desk.js';
import { openDesk } from '../../src/desk/open-desk.js';
import { JOB } from '../../src/desk/folds.js';
import type { JobState } from '../../src/job/state.js';
import { readState } from '../../src/record/index.js';
import type { ShopRecord } from '../../src/record/types.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import type { Action, Answer } from '../../src/wording/answer.js';
import { textOf } from '../../src/wording/answer.js';
import { DESK_START, MECHANIC_CHAT, openDeskBench } from '../support/desk.js';

export const OWNER_CHAT = 601;
export const SUPPLIER_CHAT = 602;
export const HOUR = 3_600_000;
export const DAY = 24 * HOUR;

export type Delivered = { to: string; chatId: number; text: string; perhapsRepeated: boolean };
export type Floor = Awaited<ReturnType<typeof openFloor>>;

/** A shop's desk with people who write to it and are written to, as bot and workers would have it; shop time goes on by itself. */
export async function openFloor() {
  const bench = await openDeskBench();
  const { desk, record } = bench;
  let count = 0;
  let now = DESK_START;
  const incoming = async (chatId: number, text: string, over: Partial<Incoming> = {}): Promise<Incoming> => {
    const who = await desk.who(chatId);
    if (who.kind !== 'person') throw new Error(`chat ${chatId} belongs to nobody`);
    count += 1;
    now += 60_000;
    return {
      ...{
        key: `w${count}`,
        person: who.person,
        chatId,
        messageId: 1000 + count,
        text,
        at: now,
        source: 'typed',
      },
      ...{ attachments: [], replyTo: null, edited: false, album: null, forwarded: false },
      ...over,
    };
  };
  /** Hands a message to the use case of its writer's part, as the bot does. */
  const hand = async (message: Incoming, by: Desk = desk): Promise<Answer> => {
    const who = await by.who(message.chatId);
    const part = who.kind === 'person' ? who.speaksAs : null;
    if (part === null) throw new Error('a stranger is not heard');
    return part === 'mechanic'
      ? by.bench(message)
      : part === 'owner'
        ? by.owner(message)
        : by.supplier(message);
  };
  const write = async (chatId: number, text: string, over: Partial<Incoming> = {}): Promise<Answer> =>
    hand(await incoming(chatId, text, over));
  const press = async (chatId: number, action: Action): Promise<Answer> => {
    const { key, person, at } = await incoming(chatId, '');
    return desk.press({ key, person, chatId, at, action });
  };
  const linkIn = (answer: Answer): string => {
    const secret = /link\/([\w-]+)/.exec(textOf(answer))?.[1];
    if (secret === undefined) throw new Error(`no link in: ${textOf(answer)}`);
    return secret;
  };
  return {
    ...bench,
    ...{ incoming, hand, write, press, linkIn },
    mechanic: (text: string, over: Partial<Incoming> = {}) => write(MECHANIC_CHAT, text, over),
    /** Moves shop time on. */
    later: (ms: number) => (now += ms),
    now: () => now,
    /** Invites somebody known by name; they take it in this chat and are welcomed. */
    join: async (name: string, chatId: number, nameInChat = name): Promise<void> => {
      const secret = linkIn(await write(MECHANIC_CHAT, `invite ${name}`));
      await desk.takeInvitation({ key: `join-${chatId}`, chatId, name: nameInChat, secret, at: now });
      const { events } = await record.events('shop');
      const taken = events.findLast(({ type }) => type === 'invitation-taken');
      const { invitation } = taken?.data as { invitation: string };
      await press(MECHANIC_CHAT, { do: 'settle-guest', invitation, welcome: true });
    },
    /** The shop's only job, or the one with the title. */
    job: async (title?: string): Promise<{ id: string; state: JobState }> => {
      const ids = (await record.streams()).filter((stream) => stream.startsWith('job-'));
      const jobs = await Promise.all(
        ids.map(async (id) => ({ id: id.slice(4), state: (await readState(record, id, JOB)).state })),
      );
      const found = title === undefined ? jobs[0] : jobs.find(({ state }) => state.title === title);
      if (!found) throw new Error(`no job ${title ?? ''}`);
      return found;
    },
    /** Sends all that is intended, as the worker does. */
    deliver: async (at = now): Promise<Delivered[]> => {
      const sent: Delivered[] = [];
      for (const { id } of await record.people.all()) {
        for (const message of await intended(record, id)) {
          const prepared = await desk.prepareSend(id, message, at);
          if (prepared.outcome !== 'send') continue;
          const { chatId, answer, about, perhapsRepeated } = prepared;
          await desk.sent(
            id,
            message,
            { chatMessage: (count += 1) + 5000, about, perhapsRepeated, answer },
            at,
          );
          sent.push({ to: id, chatId, text: textOf(answer), perhapsRepeated });
        }
      }
      return sent;
    },
    /** Another desk on the same Redis, over a record that was tampered with. */
    deskOver: (tamper: (record: ShopRecord) => Partial<ShopRecord>): Desk =>
      openDesk({
        record: { ...record, ...tamper(record) },
        log: pino({ level: 'silent' }),
        policyFromFile: DEFAULT_POLICY,
        canListen: false,
        secretOf: () => 'other-secret',
        linkFor: (secret) => `link/${secret}`,
      }),
  };
}

/** Ids of the messages to somebody that were intended, oldest first. */
export async function intended(record: ShopRecord, person: string): Promise<string[]> {
  const { events } = await record.events(`contact-${person}`);
  return events.flatMap(({ type, data }) =>
    type === 'message-intended' ? [(data as { id: string }).id] : [],
  );
}

/** A machine on the bench, its owner and its plater, both in the chat. */
export async function furnish(floor: Floor): Promise<void> {
  await floor.mechanic('new job: Larkspur 350 single, owner Mrs Quillfeather, already stripped');
  await floor.mechanic('supplier Brindlewick Plating, chrome, 01632 960123');
  await floor.join('Mrs Quillfeather', OWNER_CHAT);
  await floor.join('Brindlewick Plating', SUPPLIER_CHAT);
  await floor.deliver();
}

export const eventsOf = async (floor: Floor, id: string, type: string): Promise<unknown[]> =>
  (await floor.record.events(`job-${id}`)).events.flatMap((event) =>
    event.type === type ? [event.data] : [],
  );

/** A desk gives a text that matches. */
export function expectText(answer: Answer, pattern: RegExp): void {
  expect(textOf(answer)).toMatch(pattern);
}

export const at = (time: string): number => Date.parse(time);

export const toSupplier = (sent: readonly Delivered[]): Delivered[] =>
  sent.filter(({ chatId }) => chatId === SUPPLIER_CHAT);

export const toMechanic = (sent: readonly Delivered[]): string =>
  sent
    .filter(({ chatId }) => chatId === MECHANIC_CHAT)
    .map(({ text }) => text)
    .join('\n---\n');

/** A rim of the furnished shop's machine goes to its plater. */
export async function sendRim(floor: Floor, due = '13 March'): Promise<void> {
  await floor.mechanic('working on the Larkspur');
  await floor.mechanic(`front rim rusty, sent it to Brindlewick for chrome, back by ${due}`);
}

/** Puts into motion what is due at an instant, and delivers it. */
export async function wakeAndDeliver(floor: Floor, time: string): Promise<Delivered[]> {
  await floor.desk.wake(at(time));
  return floor.deliver(at(time));
}
