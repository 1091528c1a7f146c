import { setTimeout as sleep } from 'node:timers/promises';
import type { Api, Bot } from 'grammy';
import { GrammyError } from 'grammy';
import type { BenchContext } from './context.js';
import { askedToWaitMs } from './say.js';

const UPDATES = ['message', 'edited_message', 'callback_query', 'my_chat_member'] as const;
/** grammY names the type of a package that stands in for Node's own; what it is given need only behave like it. */
type ApiSignal = Parameters<Api['getMe']>[0];
const AT_ONCE = 100;
const WAIT_MS = 3_000;

export type Polling = {
  /** How long the chat's server holds a poll that has nothing to give. */
  pollSeconds: number;
  listening: () => void;
  /** The chat's server did not answer a poll; not called again before it has. */
  away: (error: unknown) => void;
  /** It answers again. */
  back: () => void;
  signal: AbortSignal;
};

/**
 * Takes what comes and has it handled, one update after the other, until told to stop. grammY's own polling confirms an
 * update that is still in hand when it is stopped, so that one which waits for Redis would be lost: here only what was
 * handled to its end is confirmed. Throws what handling throws, and where the token is refused or another polls.
 */
export async function pollUpdates(bot: Bot<BenchContext>, polling: Polling): Promise<void> {
  const { pollSeconds, listening, signal } = polling;
  const stop = signal as ApiSignal;
  await bot.init(stop);
  await patiently(() => bot.api.deleteWebhook({}, stop), polling);
  if (signal.aborted) return;
  listening();
  let handled = 0;
  let confirmed = 0;
  const poll = { limit: AT_ONCE, timeout: pollSeconds, allowed_updates: UPDATES };
  try {
    while (!signal.aborted) {
      const offset = handled + 1;
      const updates = await patiently(() => bot.api.getUpdates({ ...poll, offset }, stop), polling);
      confirmed = handled;
      for (const update of updates ?? []) {
        await bot.handleUpdate(update);
        handled = update.update_id;
        if (signal.aborted) break;
      }
    }
  } finally {
    // What is not confirmed comes again, and is answered from what was recorded: a pity, no harm.
    if (handled > confirmed)
      await bot.api.getUpdates({ offset: handled + 1, limit: 1, timeout: 0 }).catch(() => []);
  }
}

/** Tries until the chat's server answers, or until told to stop: null then. */
async function patiently<T>(call: () => Promise<T>, { signal, away, back }: Polling): Promise<T | null> {
  let isAway = false;
  while (!signal.aborted) {
    try {
      const answer = await call();
      if (isAway) back();
      return answer;
    } catch (error) {
      if (signal.aborted) break;
      if (error instanceof GrammyError && [401, 409].includes(error.error_code)) throw error;
      const pauseMs = askedToWaitMs(error);
      if (!isAway && pauseMs === 0) away(error);
      isAway ||= pauseMs === 0;
      await sleep(pauseMs || WAIT_MS, undefined, { signal }).catch(() => undefined);
    }
  }
  return null;
}
