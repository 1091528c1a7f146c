import type { Context } from 'grammy';
import type { Logger } from 'pino';
import type { Desk, Identity } from '../src/desk/desk.js';
import type { ShopRecord } from '../src/record/types.js';
import type { Clock } from '../src/desk/clock.js';

/** What the bot works with. */
export type BotDeps = {
  desk: Desk;
  record: ShopRecord;
  clock: Clock;
  log: Logger;
  mechanicChats: readonly number[];
};

/** An update with who wrote it and the key under which it is recorded. */
export type BenchContext = Context & { key: string; who: Identity };

export type Known = Extract<Identity, { kind: 'person' }>;
