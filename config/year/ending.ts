import type { RecordedContactEvent } from '../../src/contact/state.js';
import { evolveContact, NEW_CONTACT } from '../../src/contact/state.js';
import type { InboxState, Recorded, ShopRecord } from '../../src/record/types.js';
import type { Stage } from '../demo/stage.js';
import { keptOf, neverSaid, notKeptOnce } from './invariants/acknowledged.js';
import { neverSent } from './invariants/once.js';
import type { Told } from './invariants/told-once.js';
import { markedWithoutCause, notAsRecorded, toldTwice } from './invariants/told-once.js';
import type { Happened } from './journal.js';

/** All that stands in a record at rest: its events, and of everybody in the chat what was sent to them. */
export async function readKept(record: ShopRecord): Promise<{ events: Recorded[]; told: Told[] }> {
  const events: Recorded[] = [];
  const told: Told[] = [];
  const people = await record.people.all();
  for (const stream of await record.streams()) {
    const its = (await record.events(stream)).events;
    events.push(...its);
    const person = people.find(({ id }) => stream === `contact-${id}`);
    if (person?.chatId === undefined) continue;
    const { messages } = (its as unknown as RecordedContactEvent[]).reduce(evolveContact, NEW_CONTACT);
    told.push({ who: person.name, chat: person.chatId, kept: Object.values(messages) });
  }
  return { events, told };
}

/** What does not hold of a play that has ended, a sentence each. */
export async function lookBack(
  { record }: Pick<Stage, 'record'>,
  happened: readonly Happened[],
  leaves?: Parameters<typeof notKeptOnce>[1],
): Promise<string[]> {
  const { events, told } = await readKept(record);
  const updates = happened.flatMap((entry) => (entry.kind === 'act' ? [entry.update] : []));
  const found = new Map<number, InboxState>();
  for (const update of updates) found.set(update, await record.inbox.find(`u${update}`));
  const kept = keptOf(happened, (update) => found.get(update) ?? { state: 'new' }, events);
  return [
    ...notKeptOnce(kept, leaves),
    ...neverSaid(happened, events),
    ...told.flatMap(({ who, kept: out }) => neverSent(who, out)),
    ...told.flatMap((each) => [...toldTwice(happened, each), ...notAsRecorded(happened, each)]),
    ...markedWithoutCause(happened, told),
  ];
}
