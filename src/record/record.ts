import type { Redis } from 'ioredis';
import { makeAppend } from './append.js';
import { makeBackUps } from './back-ups.js';
import { makeButtons, makeChatMessages } from './chat.js';
import { makeDue } from './due.js';
import { makeFiles } from './files.js';
import { makeGlance } from './glance.js';
import { makeInbox } from './inbox.js';
import { makeKeys } from './keys.js';
import { makeClock, makeLease } from './lease.js';
import { makeForgetMentions } from './mentions.js';
import { makeOutbox } from './outbox.js';
import { makeContext, makePeople } from './people.js';
import { makeStreams } from './streams.js';
import type { NewEvent, ShopRecord } from './types.js';

export type RecordOptions = {
  /** A connection without keyPrefix. It stays the caller's: the record never closes it. */
  redis: Redis;
  /** 1 to 64 letters, digits, '-' or '_'. */
  shop: string;
  /** The folder of this shop's files; made when the first one is put. */
  filesDir: string;
  logger?: { warn(details: object, sentence: string): void };
  /** Brings an event of an older schema version up to date as it is loaded. (Default: as it is.) */
  upcast?: (event: NewEvent) => NewEvent;
};

/** Opens a shop's record. Nothing is read or written until it is used. */
export function openRecord({
  redis,
  shop,
  filesDir,
  logger,
  upcast = (event) => event,
}: RecordOptions): ShopRecord {
  if (redis.options.keyPrefix) throw new Error('The record names its keys in full: give it no keyPrefix');
  const keys = makeKeys(shop);
  let blocking: Redis | undefined;
  const openBlocking = (): Redis => {
    if (blocking === undefined) {
      // It waits for the server's return however impatient the caller's own connection is.
      blocking = redis.duplicate({ enableOfflineQueue: true, maxRetriesPerRequest: null });
      blocking.on('error', (error) =>
        logger?.warn({ error }, "The outbox's connection failed; trying again"),
      );
    }
    return blocking;
  };
  return {
    shop,
    memory: {},
    append: makeAppend(redis, keys),
    ...makeStreams(redis, keys, upcast),
    glance: makeGlance(redis, keys, upcast),
    forgetMentions: makeForgetMentions(redis, keys),
    inbox: makeInbox(redis, keys),
    people: makePeople(redis, keys),
    context: makeContext(redis, keys),
    buttons: makeButtons(redis, keys),
    chatMessages: makeChatMessages(redis, keys),
    outbox: makeOutbox(redis, keys, openBlocking),
    due: makeDue(redis, keys),
    lease: makeLease(redis, keys),
    clock: makeClock(redis, keys),
    files: makeFiles(redis, keys, filesDir),
    backUps: makeBackUps(redis, keys),
    close: () => {
      blocking?.disconnect();
      blocking = undefined;
      return Promise.resolve();
    },
  };
}
