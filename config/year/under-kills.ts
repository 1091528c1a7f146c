import type { Stage } from '../demo/stage.js';
import { MECHANIC_CHATS } from './cast.js';
import type { Journal } from './journal.js';
import type { Chances, Killed, Parts } from './kills.js';
import { makeKiller } from './kills.js';

export type KillOptions = {
  seed: number;
  /** The chance that something is killed while a message is handled. */
  kills: number;
  /** The same of each wake, and else of each wake's first message to a supplier or owner. (Default: as `kills`) */
  killsInWakes?: Pick<Chances, 'wake' | 'chaser'>;
  /** The workers together in one process, or each in its own. (Default: joint) */
  parts?: Parts;
};

/**
 * A killed worker's work is taken up when its lock runs out; one thing is sent at a time, so that one death leaves one open. Nobody
 * speaks in the play: no model of speech is made at each start.
 */
export const UNDER_FAULTS = { WORKER_LOCK_SECONDS: '2', WORKER_CONCURRENCY: '1', SPEECH_COMMAND: 'true' };

/** How long the shop may take to come to rest, with processes starting again on a busy machine. */
export const PATIENCE_MS = 60_000;

/** Notes each wake and each death from now on; gives what is to be called while what somebody did is under way. */
export function withKills(
  { seed, kills, killsInWakes = { wake: kills, chaser: kills }, parts = 'joint' }: KillOptions,
  stage: Stage,
  { note }: Journal,
  struck: (what: Killed) => void,
  mechanics: readonly number[] = MECHANIC_CHATS,
): () => Promise<void> {
  const killer = makeKiller(stage, {
    ...{ seed, chances: { talk: kills, file: kills, ...killsInWakes }, parts },
    isChased: (chat) => !mechanics.includes(chat),
    struck: (each) => {
      note({ kind: 'killed', at: stage.driver.now(), ...each });
      struck(each.what);
    },
  });
  stage.driver.whileWaking((at) => {
    note({ kind: 'woken', at });
    return killer.inWake(at);
  });
  return killer.inTalk;
}
