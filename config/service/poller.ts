import { setTimeout as sleep } from 'node:timers/promises';
import type { Bot } from 'grammy';
import { GrammyError } from 'grammy';
import type { Logger } from 'pino';
import type { BenchContext } from '../../bot/context.js';
import { pollUpdates } from '../../bot/polling.js';
import type { ShopRecord } from '../../src/record/types.js';

export type Poller = { stop: () => Promise<void>; ended: Promise<void> };

const OUSTED = 'another service polls with this bot’s token, and each misses messages; trying again';

const isOusted = (error: unknown): boolean => error instanceof GrammyError && error.error_code === 409;

/** `pollSeconds`: how long the chat's server holds a poll that has nothing to give. */
export type PollingTimes = { leaseMs: number; pollSeconds: number };

/**
 * Polls for updates as the only one to do so: it waits for the lease that another process may hold, and lets go of
 * polling when it loses it; one that died holds it for `leaseMs` at most. `ended` settles when polling is over; it rejects where the token is refused.
 */
export function startPolling(
  bot: Bot<BenchContext>,
  record: ShopRecord,
  holder: string,
  { leaseMs, pollSeconds }: PollingTimes,
  log: Logger,
): Poller {
  const renewMs = leaseMs / 3;
  const stopping = new AbortController();
  const { signal } = stopping;
  const ended = run();

  async function run(): Promise<void> {
    while (!signal.aborted) {
      if (await takeLease()) await pollWhileHeld();
      else await pause(renewMs);
    }
  }

  async function pollWhileHeld(): Promise<void> {
    const letGo = new AbortController();
    const renewing = setInterval(() => void renew(letGo), renewMs);
    try {
      await pollUpdates(bot, {
        pollSeconds,
        listening: () => log.info({}, 'listening to the chats'),
        away: (error) => log.warn({ err: error }, 'the chat’s server cannot be reached; trying again'),
        back: () => log.info({}, 'the chat’s server is back'),
        signal: AbortSignal.any([signal, letGo.signal]),
      });
    } catch (error) {
      if (error instanceof GrammyError && error.error_code === 401) throw error;
      if (!signal.aborted)
        log.warn({ err: error }, isOusted(error) ? OUSTED : 'polling broke off; trying again');
      await pause(1_000);
    } finally {
      clearInterval(renewing);
      await record.lease.release('poller', holder).catch(() => false);
    }
  }

  async function takeLease(): Promise<boolean> {
    try {
      return await record.lease.take('poller', holder, leaseMs);
    } catch (error) {
      log.warn({ err: error }, 'the poller’s lease could not be asked for');
      return false;
    }
  }

  /** While Redis is away the lease can't be lost to another, who could not take it either. */
  async function renew(letGo: AbortController): Promise<void> {
    const held = await record.lease.renew('poller', holder, leaseMs).catch(() => true);
    if (!held) letGo.abort();
  }

  async function pause(ms: number): Promise<void> {
    await sleep(ms, undefined, { signal }).catch(() => undefined);
  }

  return {
    ended,
    stop: async () => {
      stopping.abort();
      await ended;
    },
  };
}
