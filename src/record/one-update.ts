import type { Append, Appended, Glance, Glanced, Loaded, Person, ShopRecord, StreamId } from './types.js';

/** What an update is, and what the last one from the same chat asked of the record. */
export type Coming = { key: string; chatId: number; likely?: Asked | undefined };

/**
 * What was asked for, streams with the version known of each, and whose bench was looked at: all by the last update, and
 * the few that were asked for last before it.
 */
export type Asked = { streams: ReadonlyMap<StreamId, number>; benches: readonly string[] };

/** How much of what the last update did not ask for is asked for with the next one all the same: talk goes to and fro. */
const UNASKED_KEPT = 8;

export type OneUpdate = {
  record: ShopRecord;
  /** Waits until everything is kept that may be kept while the answer is on its way; throws what kept it from being so. */
  kept: () => Promise<void>;
  asked: () => Asked;
};

/**
 * The record for the time of one update. Each thing is read once, and again only after the update itself changed it; what
 * the last update from the chat asked for is asked for at once, in one go. How the update was understood goes
 * with its first append. What it leaves for later ones (context, threads, at the very end its result) is kept
 * while its answer is on its way: an answer that is said twice does less harm than one that waits for the disk.
 */
export function forOneUpdate(record: ShopRecord, { key, chatId, likely }: Coming): OneUpdate {
  const streams = onceByStream(record);
  const everyone = once(() => record.people.all());
  const byChat = onceBy((id: number) => record.people.byChat(id));
  const benches = onceBy(record.context.get);
  const find = onceBy(record.inbox.find);
  /** Left until the answer has gone: nothing shall hold the answer up. */
  const later: (() => Promise<unknown>)[] = [];
  const leave = (work: () => Promise<unknown>): Promise<void> => {
    later.push(work);
    return Promise.resolve();
  };
  const keep = async (): Promise<void> => void (await Promise.all(later.splice(0).map((work) => work())));
  let finish: (() => Promise<unknown>) | undefined;

  let begun: Append['begun'];
  const begin = async (): Promise<void> => {
    const held = begun;
    begun = undefined;
    if (held) await record.inbox.begin(held.key, held.reading);
  };
  const append = async (wanted: Append): Promise<Appended> => {
    const appended = await streams.append(begun ? { ...wanted, begun } : wanted);
    if (appended.outcome !== 'conflict') begun = undefined;
    return appended;
  };
  const changePeople = async <T>(change: () => Promise<T>): Promise<T> => {
    await begin();
    try {
      return await change();
    } finally {
      everyone.again();
      byChat.again();
    }
  };

  const glanced: Glanced = {
    ...{ update: key, chatId, benches: likely?.benches ?? [] },
    streams: [...new Map<StreamId, number>([['shop', 0], ...(likely?.streams ?? [])])],
  };
  const glance = record.glance(glanced);
  const seen = <T>(of: (glance: Glance) => T): Promise<T> => glance.then(of);
  find.start(
    key,
    seen(({ update }) => update),
  );
  byChat.start(
    chatId,
    seen(({ person }) => person),
  );
  everyone.start(seen(({ people }) => people));
  for (const [index, bench] of glanced.benches.entries())
    benches.start(
      bench,
      seen((all) => all.benches[index] ?? {}),
    );
  for (const [index, [stream, version]] of glanced.streams.entries())
    streams.start(
      stream,
      version,
      seen((all) => all.streams[index] ?? NOTHING),
    );

  return {
    record: {
      ...record,
      ...streams.reads,
      append,
      inbox: {
        ...record.inbox,
        find: find.get,
        begin: (update, reading) => {
          begun = { key: update, reading };
          return Promise.resolve();
        },
        finish: (update, result) => {
          finish = () => record.inbox.finish(update, result);
          return Promise.resolve();
        },
      },
      people: {
        ...record.people,
        all: everyone.get,
        byChat: byChat.get,
        put: (id: string, person: Person) => changePeople(() => record.people.put(id, person)),
        forget: (id) => changePeople(() => record.people.forget(id)),
      },
      context: {
        get: benches.get,
        set: async (person, patch) => {
          await begin();
          await leave(() => record.context.set(person, patch));
          const before = benches.get(person);
          benches.start(
            person,
            before.then((entries) => patched(entries, patch)),
          );
        },
      },
      chatMessages: {
        ...record.chatMessages,
        put: (chat, message, about) => leave(() => record.chatMessages.put(chat, message, about)),
      },
    },
    kept: async () => {
      await keep();
      await finish?.();
    },
    asked: () => {
      const versions = new Map([...(likely?.streams ?? []), ...streams.versions()]);
      const asked = lately([...streams.asked()], [...(likely?.streams.keys() ?? [])]);
      return {
        streams: new Map(asked.map((stream) => [stream, versions.get(stream) ?? 0])),
        benches: lately(benches.asked(), likely?.benches ?? []),
      };
    },
  };
}

/** What was asked for now, then what was before, the latest first. */
const lately = <Key>(now: readonly Key[], before: readonly Key[]): Key[] => [
  ...now,
  ...before.filter((key) => !now.includes(key)).slice(0, UNASKED_KEPT),
];

const patched = (entries: Record<string, unknown>, patch: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(Object.entries({ ...entries, ...patch }).filter(([, value]) => value != null));

const quietly = (work: Promise<unknown>): void => void work.catch(() => undefined);

/** What is read once. `start` hands in a reading that is under way already. */
type Once<T> = { get: () => Promise<T>; start: (reading: Promise<T>) => void; again: () => void };

function once<T>(read: () => Promise<T>): Once<T> {
  let found: Promise<T> | undefined;
  return {
    get: () => (found ??= read()),
    start: (reading) => {
      found = reading;
      quietly(reading);
    },
    again: () => (found = undefined),
  };
}

type OnceBy<Key, T> = {
  get: (key: Key) => Promise<T>;
  start: (key: Key, reading: Promise<T>) => void;
  again: () => void;
  asked: () => Key[];
};

function onceBy<Key, T>(read: (key: Key) => Promise<T>): OnceBy<Key, T> {
  const found = new Map<Key, Promise<T>>();
  const asked = new Set<Key>();
  const start = (key: Key, reading: Promise<T>): void => {
    found.set(key, reading);
    quietly(reading);
  };
  return {
    get: (key) => {
      asked.add(key);
      const before = found.get(key);
      if (before) return before;
      const reading = read(key);
      start(key, reading);
      return reading;
    },
    start,
    again: () => found.clear(),
    asked: () => [...asked],
  };
}

type Events = Omit<Loaded, 'texts'>;
type Started = Glance['streams'][number];
const NOTHING: Started = { events: { version: 0, events: [] }, edition: 0 };
/** A stream's events after a version, as they were when first asked for, with those added since by the update itself. */
type Known = { from: number; events: Promise<Events> };

function onceByStream(record: ShopRecord) {
  const known = new Map<StreamId, Known>();
  const versions = new Map<StreamId, number>();
  const asked = new Set<StreamId>();
  const editions = onceBy(record.textEdition);

  const keep = (stream: StreamId, from: number, reading: Promise<Events>): Promise<Events> => {
    known.set(stream, { from, events: reading });
    quietly(reading.then(({ version }) => versions.set(stream, version)));
    return reading;
  };
  const events: ShopRecord['events'] = async (stream, after = 0) => {
    asked.add(stream);
    const before = known.get(stream);
    if (before === undefined || after < before.from) return keep(stream, after, record.events(stream, after));
    const found = await before.events;
    return { ...found, events: found.events.filter(({ version }) => version > after) };
  };
  const append = async (wanted: Append): Promise<Appended> => {
    const { stream, expectedVersion } = wanted;
    asked.add(stream);
    const before = known.get(stream);
    known.delete(stream);
    const appended = await record.append(wanted);
    if (appended.outcome !== 'appended' || before === undefined) return appended;
    const found = await before.events;
    if (found.version !== expectedVersion) return appended;
    const all = { version: appended.version, events: [...found.events, ...appended.events] };
    void keep(stream, before.from, Promise.resolve(all));
    return appended;
  };
  const changeTexts = async (change: () => Promise<void>): Promise<void> => {
    try {
      await change();
    } finally {
      editions.again();
    }
  };
  return {
    append,
    /** Takes note of a reading of what is new in a stream, ahead of its use. */
    start: (stream: StreamId, version: number, reading: Promise<Started>): void => {
      void keep(
        stream,
        version,
        reading.then(({ events: found }) => found),
      );
      editions.start(
        stream,
        reading.then(({ edition }) => edition),
      );
    },
    /** The versions known of streams that were asked for. */
    versions: () => [...versions].filter(([stream]) => asked.has(stream)),
    asked: () => asked,
    reads: {
      events,
      textEdition: editions.get,
      putText: (stream: StreamId, id: string, text: string) =>
        changeTexts(() => record.putText(stream, id, text)),
      forgetTexts: (stream: StreamId, ids: readonly string[]) =>
        changeTexts(() => record.forgetTexts(stream, ids)),
    },
  };
}
