import type { StreamId } from './types.js';

/**
 * The kinds of keys that a shop's record is made of. A key is `benchhand:{<shop>}:<kind>[:<rest>]`; the braces are
 * the hash tag that keeps a shop on one node. The value says how an archive finds the keys of a kind: by name, by
 * scanning, or not at all: locks, the rehearsal clock and the account of back-ups belong to machines, `restoring` to a
 * restore under way.
 */
export const KEY_KINDS = {
  events: 'by-name',
  texts: 'scanned',
  command: 'scanned',
  streams: 'by-name',
  outbox: 'by-name',
  'effect-ids': 'by-name',
  due: 'by-name',
  inbox: 'scanned',
  'inbox-tries': 'scanned',
  poison: 'by-name',
  people: 'by-name',
  'people-chats': 'by-name',
  context: 'scanned',
  button: 'scanned',
  'chat-message': 'scanned',
  files: 'by-name',
  'back-up': 'left-out',
  lease: 'left-out',
  clock: 'left-out',
  restoring: 'left-out',
} as const satisfies Record<string, 'by-name' | 'scanned' | 'left-out'>;

export type KeyKind = keyof typeof KEY_KINDS;

/** What all keys of a shop begin with, hash tag included. Throws on an id that would break the tag. */
export function shopPrefix(shop: string): string {
  if (!/^[A-Za-z0-9_-]{1,64}$/.test(shop)) {
    throw new Error(`A shop's id is 1 to 64 letters, digits, '-' or '_': got ${JSON.stringify(shop)}`);
  }
  return `benchhand:{${shop}}:`;
}

/** The `prefix` option for BullMQ's queues of a shop: the same node as the record, apart from its keys. */
export function queuePrefix(shop: string): string {
  return `${shopPrefix(shop)}queue`;
}

export type Keys = ReturnType<typeof makeKeys>;

/** The names of all keys of one shop. */
export function makeKeys(shop: string) {
  const prefix = shopPrefix(shop);
  const key = (kind: KeyKind, ...rest: (string | number)[]): string => prefix + [kind, ...rest].join(':');
  return {
    prefix,
    events: (stream: StreamId) => key('events', stream),
    texts: (stream: StreamId) => key('texts', stream),
    command: (stream: StreamId, commandId: string) => key('command', stream, commandId),
    streams: key('streams'),
    outbox: key('outbox'),
    effectIds: key('effect-ids'),
    due: key('due'),
    inbox: (update: string) => key('inbox', update),
    inboxTries: (update: string) => key('inbox-tries', update),
    poison: key('poison'),
    people: key('people'),
    peopleChats: key('people-chats'),
    context: (personId: string) => key('context', personId),
    button: (token: string) => key('button', token),
    chatMessage: (chatId: number, messageId: number) => key('chat-message', chatId, messageId),
    files: key('files'),
    backUp: key('back-up'),
    lease: (name: string) => key('lease', name),
    clock: key('clock'),
    restoring: key('restoring'),
  };
}

/** The kind of a record key, without regard to what follows it; undefined for keys that are not the record's. */
export function kindOf(prefix: string, key: string): KeyKind | undefined {
  if (!key.startsWith(prefix)) return undefined;
  const kind = key.slice(prefix.length).split(':', 1)[0] ?? '';
  return Object.hasOwn(KEY_KINDS, kind) ? (kind as KeyKind) : undefined;
}

/** Throws unless the string names a stream: 'shop', 'job-…' or 'contact-…' without spaces, colons or braces. */
export function assertStreamId(stream: string): asserts stream is StreamId {
  if (!/^(shop|(job|contact)-[^\s:{}]{1,128})$/.test(stream)) {
    throw new Error(`Not a stream: ${JSON.stringify(stream)} (expected 'shop', 'job-…' or 'contact-…')`);
  }
}
