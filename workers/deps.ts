import type { Api } from 'grammy';
import type { Redis } from 'ioredis';
import type { Logger } from 'pino';
import type { ChatPause } from '../bot/say/pause.js';
import type { Clock } from '../src/desk/clock.js';
import type { Desk } from '../src/desk/desk.js';
import type { ShopRecord } from '../src/record/types.js';
import type { Queues } from './queues.js';
import type { Recognise } from './recogniser.js';

/** What the workers work with. */
export type WorkerDeps = {
  desk: Desk;
  record: ShopRecord;
  clock: Clock;
  log: Logger;
  api: Api;
  /** The pause that the chat's server asked for; `api` keeps to it. */
  pause: ChatPause;
  /** The connection for blocking reads; BullMQ makes its own from it. */
  connection: Redis;
  queues: Queues;
  token: string;
  apiRoot: string;
  recognise: Recognise | null;
  concurrency: number;
  lockMs: number;
};

/** A worker that runs: `stop` drains it; when `hurry` fires, what is in hand is let go and done again elsewhere. */
export type Running = { name: string; stop: (hurry: AbortSignal) => Promise<void> };
