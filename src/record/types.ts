/** A stream of events: the shop's own, one for each job, one for each supplier or owner. */
export type StreamId = 'shop' | `job-${string}` | `contact-${string}`;

/** An event as the job, shop or contact decides it, before it has a place in a stream. */
export type NewEvent = { type: string; schema: number; data: unknown };

/** An event as it stands in the record. */
export type Recorded<E = NewEvent> = E & {
  id: string;
  version: number;
  /** Milliseconds since 1970, shop time. */
  at: number;
  /** A person's id, or 'benchhand'. */
  by: string;
  /** The id of the chat message that it came from. */
  message?: string;
  command: string;
};

/** Something to be done outside the record once the append holds. */
export type Effect = {
  /** Made from what it is about, so that the same effect asked for twice is added once. */
  id: string;
  queue: 'send' | 'fetch' | 'transcribe' | 'wake';
  /** Ids only: queues are readable in clear text. */
  data: Record<string, string | number | boolean>;
};

export type Append = {
  stream: StreamId;
  expectedVersion: number;
  commandId: string;
  events: readonly NewEvent[];
  /** Milliseconds since 1970, shop time. */
  at: number;
  by: string;
  message?: string;
  effects?: readonly Effect[];
  /** Words as said, by text id: they go to the stream's side hash in the same script. */
  texts?: Readonly<Record<string, string>>;
  /** When the stream is next due, in milliseconds. null: not at all; undefined: leave it as it is. */
  dueAt?: number | null;
  /** How the update behind it was understood: kept in the same script, as `Inbox.begin` would. */
  begun?: { key: string; reading: unknown } | undefined;
};

export type Appended =
  | { outcome: 'appended'; version: number; events: Recorded[] }
  | { outcome: 'seen'; version: number }
  | { outcome: 'conflict'; version: number };

export type Loaded = { version: number; events: Recorded[]; texts: ReadonlyMap<string, string> };

/** Everything that names a person or reaches one; nothing of it stands in an event. */
export type Person = {
  id: string;
  name: string;
  also?: string[] | undefined;
  phone?: string | undefined;
  email?: string | undefined;
  address?: string | undefined;
  chatId?: number | undefined;
  language?: string | undefined;
};

/** Where an update that came before stands: unknown, read but not finished, or finished with its result. */
export type InboxState =
  { state: 'new' } | { state: 'begun'; reading: unknown } | { state: 'done'; result: unknown };

export type Poisoned = { key: string; at: number; raw: unknown };

export type Inbox = {
  find: (key: string) => Promise<InboxState>;
  /** Keeps the reading before any command of it is tried. Has no effect on a finished update. */
  begin: (key: string, reading: unknown) => Promise<void>;
  finish: (key: string, result: unknown) => Promise<void>;
  /** Counts one failed try; gives the number of tries that have failed. */
  failed: (key: string) => Promise<number>;
  /** Keeps an update that cannot be handled as it came; twice is kept once. */
  poison: (key: string, raw: unknown) => Promise<void>;
  poisoned: () => Promise<Poisoned[]>;
};

export type People = {
  /** Throws an Error that names the field when the data is not a Person. */
  put: (id: string, person: Person) => Promise<void>;
  get: (id: string) => Promise<Person | undefined>;
  all: () => Promise<Person[]>;
  byChat: (chatId: number) => Promise<Person | undefined>;
  /** Removes the data and the place in the chat index; events keep the id. Gives false when nobody was there. */
  forget: (id: string) => Promise<boolean>;
};

/** What is on a person's bench: last item spoken of, open question and the like, by name. */
export type Context = {
  get: (personId: string) => Promise<Record<string, unknown>>;
  /** Sets the named entries; a value of undefined or null removes the entry. */
  set: (personId: string, patch: Record<string, unknown>) => Promise<void>;
};

export type Buttons = {
  /** Keeps what a button does under its token. (Default: 120 days.) */
  put: (token: string, action: unknown, days?: number) => Promise<void>;
  /** The same for all buttons of a message, in one write. */
  putAll: (actions: ReadonlyMap<string, unknown>) => Promise<void>;
  get: (token: string) => Promise<unknown>;
};

/** Messages of a chat -> what they were about. Kept 400 days. */
export type ChatMessages = {
  put: (chatId: number, messageId: number, about: unknown) => Promise<void>;
  get: (chatId: number, messageId: number) => Promise<unknown>;
};

/** An effect that waits to be handed to its queue. `entry` is its place in the outbox, for `ack`. */
export type OutboxEntry = { entry: string; effect: Effect };

export type Outbox = {
  /** The consumer's own unacknowledged entries first, then new ones. Waits up to `blockMs` when there are none. */
  read: (consumer: string, options: { count: number; blockMs: number }) => Promise<OutboxEntry[]>;
  ack: (entries: readonly OutboxEntry[]) => Promise<void>;
  /** Takes over entries that another consumer has left for `idleMs` or longer. */
  claimIdle: (consumer: string, idleMs: number, count?: number) => Promise<OutboxEntry[]>;
  /** Entries that are not acknowledged: undelivered and pending. */
  size: () => Promise<number>;
  /** Machine time in ms at which the oldest unacknowledged entry was added; null when there is none. */
  oldestAt: () => Promise<number | null>;
};

export type Due = {
  /** Streams due at or before `at` (ms, shop time), earliest first. */
  until: (at: number) => Promise<{ stream: StreamId; at: number }[]>;
  next: () => Promise<number | null>;
  set: (stream: StreamId, at: number | null) => Promise<void>;
};

/** Machine-time locks: one poller, one sweeper. Each says whether the holder has it now. */
export type Lease = {
  take: (name: string, holder: string, ms: number) => Promise<boolean>;
  renew: (name: string, holder: string, ms: number) => Promise<boolean>;
  release: (name: string, holder: string) => Promise<boolean>;
};

/** The rehearsal clock, shared by all processes. null: none is set, and shop time is machine time. */
export type RehearsalClock = { set: (ms: number | null) => Promise<void>; get: () => Promise<number | null> };

export type FileMeta = { hash: string; size: number; mime?: string; name?: string };

export type FilePut =
  | { outcome: 'kept'; hash: string; size: number; mime?: string }
  | { outcome: 'refused'; reason: 'too-big'; limitBytes: number }
  | { outcome: 'refused'; reason: 'disk-full' };

export type Files = {
  put: (
    content: Uint8Array | AsyncIterable<Uint8Array>,
    options: { mime?: string; name?: string; limitBytes: number },
  ) => Promise<FilePut>;
  /** Where the file lies. Throws on a string that is no hash. */
  path: (hash: string) => string;
  meta: (hash: string) => Promise<FileMeta | undefined>;
  /** The size of all files kept, in bytes. */
  bytes: () => Promise<number>;
};

/** A back-up that was written, or why the last one was not. Times in ms, shop time; days are local dates. */
export type BackUpKept = {
  day: string;
  at: number;
  name: string;
  bytes: number;
  events: number;
  files: number;
};
export type BackUpFailed = { day: string; at: number; why: string; since: string };
export type BackUpAccount = { kept: BackUpKept | null; failed: BackUpFailed | null };

/** What became of the daily back-ups. It is no part of them. */
export type BackUps = {
  account: () => Promise<BackUpAccount>;
  /** A back-up that was kept ends the failures before it. */
  note: (outcome: { kept: BackUpKept } | { failed: BackUpFailed }) => Promise<void>;
};

/** What an update's handling is likely to ask for: streams with the version after which each is wanted, and whose benches. */
export type Glanced = {
  update: string;
  chatId: number;
  streams: readonly (readonly [stream: StreamId, afterVersion: number])[];
  benches: readonly string[];
};

/** What there was of it at one instant, in the order asked for. */
export type Glance = {
  update: InboxState;
  person: Person | undefined;
  people: Person[];
  streams: { events: Omit<Loaded, 'texts'>; edition: number }[];
  benches: Record<string, unknown>[];
};

/** All that a shop's record offers. Only `src/record/` knows the keys behind it. */
export type ShopRecord = {
  shop: string;
  /** What this process remembers of the record goes by this object; it is the same for every view of one record. */
  memory: object;
  append: (append: Append) => Promise<Appended>;
  /** The stream's version after a command that was appended in the last half year; null when it was not. */
  seen: (stream: StreamId, commandId: string) => Promise<number | null>;
  /** Events after a version, oldest first, and the words of the whole stream. */
  load: (stream: StreamId, afterVersion?: number) => Promise<Loaded>;
  /** As `load`, without the words. A version below `afterVersion` says that the stream was replaced. */
  events: (stream: StreamId, afterVersion?: number) => Promise<Omit<Loaded, 'texts'>>;
  /** Much of it at once, as `events`, `textEdition`, `inbox.find`, `people` and `context.get` would give it. */
  glance: (glanced: Glanced) => Promise<Glance>;
  texts: (stream: StreamId) => Promise<ReadonlyMap<string, string>>;
  /** Those words that there are of the ids; other ids are passed over. */
  textsOf: (stream: StreamId, ids: readonly string[]) => Promise<ReadonlyMap<string, string>>;
  /** Goes up by one whenever words are forgotten or put in place of others; an append leaves it. */
  textEdition: (stream: StreamId) => Promise<number>;
  putText: (stream: StreamId, id: string, text: string) => Promise<void>;
  forgetTexts: (stream: StreamId, ids: readonly string[]) => Promise<void>;
  /**
   * Drops what updates came to, updates kept raw, buttons and the like where any text in them mentions somebody, or that
   * are of one of some chats.
   */
  forgetMentions: (isMentioned: (text: string) => boolean, chats?: readonly number[]) => Promise<void>;
  streams: () => Promise<StreamId[]>;
  inbox: Inbox;
  people: People;
  context: Context;
  buttons: Buttons;
  chatMessages: ChatMessages;
  outbox: Outbox;
  due: Due;
  lease: Lease;
  clock: RehearsalClock;
  files: Files;
  backUps: BackUps;
  /** Closes the connections that the record opened itself; the one it was given stays open. */
  close: () => Promise<void>;
};
