import type { Stage } from '../demo/stage.js';
import type { Journal } from './journal.js';
import type { Killer, KillerOptions } from './kills.js';
import { makeKiller } from './kills.js';

/**
 * A killed worker's work is taken up when its lock runs out. One thing is sent at a time by each worker, so that one death leaves one
 * open. What is spoken is heard as nothing, by a command at hand everywhere: else each start of a worker would make a model of speech.
 */
export const UNDER_FAULTS = { WORKER_LOCK_SECONDS: '2', WORKER_CONCURRENCY: '1', SPEECH_COMMAND: 'true' };

/** How long the shop may take to come to rest, with processes starting again on a busy machine. */
export const PATIENCE_MS = 60_000;

/** Kills in wakes from now on, and notes each wake and each death; gives what is to be called while something that somebody did is under way. */
export function withKills(
  stage: Stage,
  { note }: Pick<Journal, 'note'>,
  options: Omit<KillerOptions, 'struck'>,
): Pick<Killer, 'inTalk' | 'inFile'> {
  const killer = makeKiller(stage, {
    ...options,
    struck: (struck) => note({ kind: 'killed', at: stage.driver.now(), ...struck }),
  });
  stage.driver.whileWaking((at) => {
    note({ kind: 'woken', at });
    return killer.inWake(at);
  });
  return killer;
}
