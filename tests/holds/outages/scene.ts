import { setTimeout as pause } from 'node:timers/promises';
import { expect } from 'vitest';
import type { Person } from '../../../bot/rehearsal/person.js';
import type { LivingShop, LivingShopOptions } from '../../support/living-shop.js';
import { startLivingShop } from '../../support/living-shop.js';

/** Monday the 9th of March 2026, nine in the morning in London. */
export const START = Date.parse('2026-03-09T09:00Z');
export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;
export const DAY = 24 * HOUR;
const PATIENCE_MS = 20_000;

export const at = (time: string): number => Date.parse(time);

/** A shop with a machine, its owner and a plater in the chat, and a front rim at the plater's. */
export type Scene = LivingShop & { plater: Person; owner: Person };

/** Opens it. The rim is promised for the day given, as a mechanic says it. */
export async function openScene(
  promised: string,
  { startAt = START, ...options }: LivingShopOptions & { startAt?: number } = {},
): Promise<Scene> {
  const shop = await startLivingShop(startAt, options);
  const { mechanic, rehearsal, say, letIn } = shop;
  await say(mechanic, 'new job: Ketterby 500 single, owner Mrs Dale');
  await say(mechanic, 'supplier Harl & Dunn, chrome, 01632 960123');
  const plater = rehearsal.person({ id: 9002, firstName: 'Bo' });
  const owner = rehearsal.person({ id: 9003, firstName: 'Ada' });
  await letIn('Harl & Dunn', plater);
  await letIn('Mrs Dale', owner);
  await say(mechanic, `front rim rusty, sent it to Harl & Dunn for chrome, back by ${promised}`);
  return { ...shop, plater, owner };
}

/** Resolves once it holds, looking again and again; rejects, saying what did not come, when patience ends. */
export async function until(what: string, holds: () => boolean | Promise<boolean>): Promise<void> {
  const deadline = performance.now() + PATIENCE_MS;
  while (!(await holds())) {
    if (performance.now() > deadline) throw new Error(`it never came to this: ${what}`);
    await pause(5);
  }
}

/** What the bot wrote to somebody. */
export const readBy = (person: Person): string[] =>
  person
    .messages()
    .filter(({ by }) => by === 'bot')
    .map(({ text }) => text);

/** What the bot wrote to somebody that is about the rim. */
export const chasers = (person: Person): string[] => readBy(person).filter((text) => /rim/i.test(text));

/** How often the service gave up a try of an update. */
export const triesOfUpdates = ({ warnings }: LivingShop): number =>
  warnings.filter((line) => line.includes('an update could not be handled')).length;

/** Wakes the shop at the instant, as its queue would, without waiting for what comes of it. */
export async function wakeAt({ setClock, queues }: LivingShop, instant: number): Promise<void> {
  await setClock(instant);
  await queues.wake.add('wake', { at: instant }, { jobId: `outage-${instant}-${performance.now()}` });
}

/** Has what waits for its next try tried now, `times` over, each once the try before has failed: a machine's hours, at once. */
export async function tryAgain({ queues }: LivingShop, times: number): Promise<void> {
  for (let tried = 0; tried < times; tried += 1) {
    await until('a send waits for its next try', async () => (await queues.send.getDelayedCount()) > 0);
    await promote(queues);
  }
}

export async function promote(queues: LivingShop['queues']): Promise<void> {
  for (const job of await queues.send.getDelayed()) await job.promote();
}

/** All events of a stream of one kind. */
export async function eventsOf({ record }: LivingShop, stream: string, type: string): Promise<unknown[]> {
  const { events } = await record.events(stream as Parameters<typeof record.events>[0]);
  return events.flatMap((event) => (event.type === type ? [event.data] : []));
}

export async function jobStream({ record }: LivingShop): Promise<string> {
  const stream = (await record.streams()).find((each) => each.startsWith('job-'));
  if (stream === undefined) throw new Error('a job was opened');
  return stream;
}

/** The stream of messages to and from somebody in the chat. */
export async function contactStream({ record }: LivingShop, person: Person): Promise<string> {
  const contact = await record.people.byChat(person.chatId);
  if (!contact) throw new Error('they are in the chat');
  return `contact-${contact.id}`;
}

/** Every message to anybody that was sent, was sent once. */
export async function expectNothingTwice(shop: LivingShop): Promise<void> {
  for (const stream of (await shop.record.streams()).filter((each) => each.startsWith('contact-'))) {
    const sent = (await eventsOf(shop, stream, 'message-sent')).map((data) => (data as { id: string }).id);
    expect(sent).toEqual([...new Set(sent)]);
  }
}
