import type { Context } from 'grammy';
import type { Logger } from 'pino';
import type { Desk, Identity, Visit } from '../src/desk/desk.js';
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

/** An update with the key under which it is recorded, the dealings with it, and who wrote it. */
export type BenchContext = Context & { key: string; visit: Visit; who: Identity };

export type Known = Extract<Identity, { kind: 'person' }>;
