import { setTimeout as sleep } from 'node:timers/promises';
import type { Api } from 'grammy';
import { GrammyError } from 'grammy';
import type { UserFromGetMe } from 'grammy/types';
import type { Logger } from 'pino';
import { askedToWaitMs } from '../../bot/say.js';

export type Introduction =
  | { readonly ok: true; readonly me: UserFromGetMe }
  | { readonly ok: false; readonly problems: readonly string[] };

const WAIT_MS = 3_000;

const UNKNOWN_TOKEN =
  'BOT_TOKEN: the chat’s server knows no bot by this token. Copy it whole from where the bot was made, and start again.';

/** What is to be done about an error, where it is that the chat's server does not know the token, or no longer. */
export function tokenProblem(error: unknown): string | null {
  return error instanceof GrammyError && [401, 404].includes(error.error_code) ? UNKNOWN_TOKEN : null;
}

/**
 * Asks the chat's server who the bot is, for as long as it is away: a workshop's router may come up after us. A token that it
 * does not know is a problem to be put right (401, or 404 where its form is wrong: Bot API documentation, making requests).
 */
export async function introduce(
  api: Pick<Api, 'getMe'>,
  log: Logger,
  pause: (ms: number) => Promise<unknown> = sleep,
): Promise<Introduction> {
  for (let tries = 0; ; tries += 1) {
    try {
      return { ok: true, me: await api.getMe() };
    } catch (error) {
      const problem = tokenProblem(error);
      if (problem !== null) return { ok: false, problems: [problem] };
      if (tries === 0) log.warn({ err: error }, 'the chat’s server cannot be reached; trying again');
      await pause(askedToWaitMs(error) || WAIT_MS);
    }
  }
}
