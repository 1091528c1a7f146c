import { setTimeout as sleep } from 'node:timers/promises';
import type { Transformer } from 'grammy';

/** Polling is no message: a server that wants fewer of those still gives out updates, and answers polls by itself. */
const NEVER_HELD = 'getUpdates';

/**
 * The pause that the chat's server asked for. A 429 does not say whether it is meant for one chat or for the whole bot, so
 * that all calls are held.
 */
export type ChatPause = {
  /** How long it goes on, ms; 0 where there is none. */
  leftMs: () => number;
  /** Resolves where there is none any more; rejects when the signal fires. */
  over: (signal: AbortSignal) => Promise<void>;
  /** What answers calls within it in the server's place, and learns of it from the server's answers. */
  transformer: Transformer;
};

export type ChatPauseOptions = {
  /** Told of each pause as it begins, and of how long it is, ms. */
  began?: (ms: number) => void;
  /** A clock that only goes forward, ms. (Default: the process's) */
  now?: () => number;
};

/**
 * Keeps to 429 answers (Bot API documentation, ResponseParameters.retry_after): until that time is over no call goes out, and each
 * is answered with 429 and what is left of it. Then one call goes alone; the others follow once it was answered otherwise.
 */
export function makeChatPause({ began, now = () => performance.now() }: ChatPauseOptions = {}): ChatPause {
  let until = -Infinity;
  /** Whether a pause came to its end and no call has been let through since. */
  let untried = false;
  let trial: Promise<void> | null = null;
  const leftMs = (): number => Math.max(0, until - now());

  const hold = (ms: number): void => {
    until = Math.max(until, now() + ms);
    untried = true;
    began?.(ms);
  };

  const transformer: Transformer = async (call, method, payload, signal) => {
    if (method === NEVER_HELD) return call(method, payload, signal);
    while (trial !== null) await trial;
    if (leftMs() > 0) return turnedAway(leftMs());
    const asked = async () => {
      const answer = await call(method, payload, signal);
      if (!answer.ok && answer.parameters?.retry_after !== undefined)
        hold(answer.parameters.retry_after * 1_000);
      return answer;
    };
    if (!untried) return asked();
    untried = false;
    const first = asked();
    trial = first.then(
      () => void (trial = null),
      () => void (trial = null),
    );
    return first;
  };

  return {
    leftMs,
    over: async (signal) => {
      for (let left = leftMs(); left > 0; left = leftMs())
        await sleep(Math.ceil(left), undefined, { signal });
    },
    transformer,
  };
}

function turnedAway(ms: number) {
  return {
    ok: false,
    error_code: 429,
    description: 'Too Many Requests: held back here',
    parameters: { retry_after: ms / 1_000 },
  } as const;
}
