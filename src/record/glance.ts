import type { Redis } from 'ioredis';
import { asInboxState } from './inbox.js';
import type { Keys } from './keys.js';
import { assertStreamId } from './keys.js';
import { asContext, asPerson } from './people.js';
import { defineScript } from './scripts.js';
import type { Entry } from './streams.js';
import { eventsAfter } from './streams.js';
import type { Glanced, NewEvent, ShopRecord } from './types.js';

/** What `glance.lua` answers with. */
type Reply = [
  update: string | null,
  person: string | null,
  people: string[],
  streams: [entries: Entry[], last: string | null, edition: string | null][],
  contexts: string[][],
];

/** Reads in one round trip what an update's handling is likely to ask for. */
export function makeGlance(
  redis: Redis,
  keys: Keys,
  upcast: (event: NewEvent) => NewEvent,
): ShopRecord['glance'] {
  const script = defineScript(redis, 'glance');
  return async (glanced) => {
    const { chatId, streams } = glanced;
    const from = streams.map(([, afterVersion]) => Math.max(afterVersion, 1));
    const reply = (await script(glanceKeys(keys, glanced), [chatId, streams.length, ...from])) as Reply;
    const [update, person, stored, read, contexts] = reply;
    const people = stored.map(asPerson);
    return {
      update: asInboxState(update),
      person: people.find((each) => each.id === person && each.chatId === chatId),
      people,
      streams: streams.map(([stream, afterVersion], index) => {
        const [entries, last, edition] = read[index] ?? [[], null, null];
        return {
          events: eventsAfter(stream, afterVersion, entries, last, upcast),
          edition: Number(edition ?? 0),
        };
      }),
      benches: contexts.map((flat) => asContext(pairs(flat))),
    };
  };
}

/** All keys that the script touches: they must lie in one slot. */
export function glanceKeys(keys: Keys, { update, streams, benches }: Glanced): string[] {
  return [
    ...[keys.inbox(update), keys.peopleChats, keys.people],
    ...streams.flatMap(([stream]) => {
      assertStreamId(stream);
      return [keys.events(stream), keys.texts(stream)];
    }),
    ...benches.map(keys.context),
  ];
}

function pairs(flat: readonly string[]): [string, string][] {
  return flat.flatMap((name, index) =>
    index % 2 === 0 ? [[name, flat[index + 1] ?? ''] as [string, string]] : [],
  );
}
