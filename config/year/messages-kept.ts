import type { RecordedContactEvent } from '../../src/contact/state.js';
import { evolveContact, NEW_CONTACT } from '../../src/contact/state.js';
import type { Recorded, ShopRecord } from '../../src/record/types.js';
import type { Told } from './invariants/told-once.js';

/** Of everybody in the chat, what the record has of the messages to them. */
export async function messagesKept(record: Pick<ShopRecord, 'people' | 'events'>): Promise<Told[]> {
  const linked = (await record.people.all()).flatMap(({ id, name, chatId }) =>
    chatId === undefined ? [] : [{ id, who: name, chat: chatId }],
  );
  return Promise.all(
    linked.map(async ({ id, who, chat }) => {
      const { events } = await record.events(`contact-${id}`);
      const { messages } = (events as unknown as RecordedContactEvent[]).reduce(evolveContact, NEW_CONTACT);
      return { who, chat, kept: Object.values(messages) };
    }),
  );
}

export async function allEvents(record: Pick<ShopRecord, 'streams' | 'events'>): Promise<Recorded[]> {
  const loaded = await Promise.all((await record.streams()).map((stream) => record.events(stream)));
  return loaded.flatMap(({ events }) => events);
}

/** All words beside the streams. */
export async function allWords(record: Pick<ShopRecord, 'streams' | 'texts'>): Promise<string[]> {
  const texts = await Promise.all((await record.streams()).map((stream) => record.texts(stream)));
  return texts.flatMap((each) => [...each.values()]);
}
