import type { EventEmitter } from 'node:events';

export type StopSignals = {
  /** The first signal: finish what is in hand. */
  readonly drain: () => void;
  /** A second one: let go of what is in hand. */
  readonly hurry: () => void;
};

/** One press of Ctrl-C under npm comes twice, a millisecond apart: from the terminal and from npm. */
const SAME_PRESS_MS = 300;

/** Listens for SIGINT and SIGTERM. `now` is machine time in milliseconds. */
export function onStopSignals(
  { drain, hurry }: StopSignals,
  target: Pick<EventEmitter, 'on'> = process,
  now: () => number = () => performance.now(),
): void {
  let last: number | null = null;
  const hear = (): void => {
    const at = now();
    const isSamePress = last !== null && at - last < SAME_PRESS_MS;
    if (last === null) drain();
    else if (!isSamePress) hurry();
    last ??= at;
  };
  for (const signal of ['SIGINT', 'SIGTERM']) target.on(signal, hear);
}
