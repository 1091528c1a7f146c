import { setTimeout as pause } from 'node:timers/promises';
import type { Stage } from '../demo/stage.js';
import type { Dice } from './names.js';

/** The service of the play: who listens and who works are processes of their own. */
export const PARTS = ['bot', 'relay,wake,send,fetch,transcribe'] as const;
export const KILLED = ['bot', 'workers', 'redis'] as const;
export type Killed = (typeof KILLED)[number];

const LATEST_MS = 12;

/** Kills the bot, the workers or Redis some moments after something was said, with the chance `p`; each comes up again. */
export function makeKiller(
  stage: Stage,
  dice: Dice,
  p: number,
  struck: (what: Killed) => void,
): () => Promise<void> {
  return async () => {
    if (!dice.chance(p)) return;
    const what = dice.pick(KILLED);
    // Machine time: somewhere in the handling of what was just said.
    await pause(dice.whole(0, LATEST_MS));
    struck(what);
    if (what === 'redis') await stage.killRedis();
    else await stage.replace(what === 'bot' ? PARTS[0] : PARTS[1]);
  };
}
