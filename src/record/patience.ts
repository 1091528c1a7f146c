import { setTimeout as sleep } from 'node:timers/promises';

/** How to wait between tries, in machine time. (Default: the timer and Math.random.) */
export type Pace = { pause?: (ms: number) => Promise<unknown>; random?: () => number };

/** Redis's answers that mean 'not now', as against a mistake of ours. */
const NOT_NOW = /^(LOADING|READONLY|MASTERDOWN|CLUSTERDOWN|TRYAGAIN|BUSY|NOREPLICAS)\b/;
/** ioredis gives these as plain errors without a code. */
const CONNECTION_GONE = /^(Connection is closed|Command timed out|Stream isn't writeable|connect ETIMEDOUT)/;

/** Whether the error leaves it unknown if the command was carried out, and the same command may be sent again. */
export function isUnknownOutcome(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  if (error.name === 'ReplyError') return NOT_NOW.test(error.message);
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return (
    error.name === 'MaxRetriesPerRequestError' ||
    error.name === 'AbortError' ||
    ['ECONNREFUSED', 'ECONNRESET', 'EPIPE', 'ETIMEDOUT', 'ENOTFOUND', 'EAI_AGAIN'].includes(code) ||
    CONNECTION_GONE.test(error.message)
  );
}

const UNKNOWN_TRIES = 6;

/** Runs until the outcome is known: six tries over about three seconds; then throws the last error. */
export async function untilKnown<T>(run: () => Promise<T>, pace: Pace): Promise<T> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await run();
    } catch (error) {
      if (tries >= UNKNOWN_TRIES || !isUnknownOutcome(error)) throw error;
      await backOff(tries, { firstMs: 100, mostMs: 1600 }, pace);
    }
  }
}

/** Waits between half of and the whole of a time that doubles with each try. */
export async function backOff(
  tries: number,
  { firstMs, mostMs }: { firstMs: number; mostMs: number },
  { pause = sleep, random = Math.random }: Pace,
): Promise<void> {
  const whole = Math.min(mostMs, firstMs * 2 ** (tries - 1));
  await pause(Math.ceil(whole * (0.5 + random() / 2)));
}
