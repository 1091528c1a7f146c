import { setTimeout as sleep } from 'node:timers/promises';
import { GrammyError, HttpError } from 'grammy';
import type { Logger } from 'pino';
import { askedToWaitMs } from './say.js';
import { isUnknownOutcome } from '../src/record/patience.js';

/** Why an update could not be handled now: someone we depend on is away, the person has shut us out, or it is a fault of ours. */
export type Trouble = 'away' | 'shut-out' | 'fault';

export function troubleOf(error: unknown): Trouble {
  if (error instanceof HttpError || isUnknownOutcome(error)) return 'away';
  if (error instanceof GrammyError) {
    if (error.error_code === 403) return 'shut-out';
    return error.error_code === 429 || error.error_code >= 500 ? 'away' : 'fault';
  }
  return 'fault';
}

const FIRST_WAIT_MS = 250;
const LONGEST_WAIT_MS = 15_000;
const TRIES_AT_MOST = 3;

export type Patience = {
  log: Logger;
  /** Counts a failed try of this update, over restarts too. */
  failed: () => Promise<number>;
  giveUp: () => Promise<void>;
  signal: AbortSignal;
};

/** The wait before an update is tried again, ms: it doubles, and is as long as the chat's server asked for at least. */
export function waitAfter(waited: number, error: unknown): number {
  return Math.max(Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** waited), askedToWaitMs(error));
}

/**
 * Handles one update to its end. While Redis or the chat is away it waits: the update stays unconfirmed and
 * nothing behind it is taken. A fault is tried three times in all, then the update is put aside. Throws only
 * when told to stop, so that the update comes again at the next start.
 */
export async function toTheEnd(
  handle: () => Promise<void>,
  { log, failed, giveUp, signal }: Patience,
): Promise<void> {
  for (let waited = 0; ;) {
    try {
      await handle();
      return;
    } catch (error) {
      signal.throwIfAborted();
      const trouble = troubleOf(error);
      log.warn({ err: error, trouble }, 'an update could not be handled');
      if (trouble === 'shut-out') return;
      if (trouble === 'fault' && (await failed()) >= TRIES_AT_MOST) return giveUp();
      await sleep(waitAfter(waited, error), undefined, { signal });
      waited += 1;
    }
  }
}
