import { createHash } from 'node:crypto';
import { setImmediate as nextTurn, setTimeout as pause } from 'node:timers/promises';
import { randomFrom } from '../../src/plan/random.js';
import type { WorkerName } from '../../workers/workers.js';
import { WORKERS } from '../../workers/workers.js';
import type { Stage } from '../demo/stage.js';
import type { Dice } from './names.js';
import { diceOf } from './names.js';

/** The service of the play: who listens and who works are processes of their own, or each worker is one too. */
export const JOINT = ['bot', 'relay,wake,send,fetch,transcribe'] as const;
export const APART = ['bot', ...WORKERS] as const;
export type Parts = 'joint' | 'apart';

export type Killed = 'bot' | 'workers' | WorkerName | 'redis';

/**
 * When something dies: some moments after something began; as the chat's server has a message and whoever sent it has not been
 * told so yet; or as effects wait to be handed on.
 */
export type Moment = 'after' | 'as-it-says' | 'as-it-hands-on';
export type Struck = { what: Killed; when: Moment };
export type Strike = Struck & { ms: number };

const LATEST_MS = 12;

/** Who may die while somebody's talk, or a wake, is under way; whoever stands twice is likelier to. */
const TARGETS: Readonly<Record<Parts, Record<'talk' | 'wake', readonly Killed[]>>> = {
  joint: { talk: ['bot', 'workers', 'redis'], wake: ['workers', 'workers', 'redis'] },
  apart: {
    talk: ['bot', 'relay', 'send', 'fetch', 'transcribe', 'redis'],
    wake: ['wake', 'relay', 'send', 'send', 'redis'],
  },
};

const MOMENTS: Readonly<Record<Killed, readonly Moment[]>> = {
  bot: ['after', 'as-it-says'],
  workers: ['after', 'as-it-says', 'as-it-hands-on'],
  relay: ['after', 'as-it-hands-on', 'as-it-hands-on'],
  wake: ['after'],
  send: ['after', 'as-it-says', 'as-it-says'],
  fetch: ['after'],
  transcribe: ['after'],
  redis: ['after', 'as-it-says', 'as-it-hands-on'],
};

/**
 * What dies at a point of the play, if anything does, with the chance `p`: by the seed and the point's own name alone, so that how
 * often the shop was woken before, which may hang on the machine, changes nothing.
 */
export function drawStrike(
  seed: number,
  point: string,
  during: 'talk' | 'wake',
  p: number,
  parts: Parts,
): Strike | null {
  const dice = diceOf(randomFrom(createHash('sha256').update(`${seed} ${point}`).digest().readInt32LE()));
  return dice.chance(p) ? drawn(dice, TARGETS[parts][during]) : null;
}

function drawn(dice: Dice, targets: readonly Killed[]): Strike {
  const what = dice.pick(targets);
  return { what, when: dice.pick(MOMENTS[what]), ms: dice.whole(0, LATEST_MS) };
}

type KillerOptions = {
  seed: number;
  /** The chance that something dies after each thing that somebody did, and in each wake. */
  p: { talk: number; wake: number };
  parts: Parts;
  /** Called as something dies. */
  struck: (struck: Struck) => void;
};

export type Killer = {
  /** To be called while what somebody did is under way. */
  inTalk: () => Promise<void>;
  /** To be called while a wake is under way. */
  inWake: (at: number) => Promise<void>;
};

type On = Pick<Stage, 'replace' | 'killRedis' | 'rehearsal' | 'driver'> & {
  record: Pick<Stage['record'], 'outbox'>;
};

/** Kills parts of the service, or Redis, at points that the seed gives; each comes up again. */
export function makeKiller(stage: On, { seed, p, parts, struck }: KillerOptions): Killer {
  let talked = 0;
  const woken = new Set<number>();
  const kill = async ({ what, when }: Strike): Promise<void> => {
    struck({ what, when });
    if (what === 'redis') await stage.killRedis();
    else await stage.replace(what === 'workers' ? JOINT[1] : what);
  };
  return {
    inTalk: async () => {
      talked += 1;
      const strike = drawStrike(seed, `talk ${talked}`, 'talk', p.talk, parts);
      if (strike !== null) await carryOut(stage, strike, kill);
    },
    inWake: async (at) => {
      if (woken.has(at)) return;
      woken.add(at);
      const strike = drawStrike(seed, `wake ${at}`, 'wake', p.wake, parts);
      if (strike !== null) await carryOut(stage, strike, kill);
    },
  };
}

async function carryOut(stage: On, strike: Strike, kill: (strike: Strike) => Promise<void>): Promise<void> {
  switch (strike.when) {
    case 'after':
      // Machine time: somewhere in the handling of what began.
      await pause(strike.ms);
      return kill(strike);
    case 'as-it-says':
      return asItSays(stage, () => kill(strike));
    case 'as-it-hands-on':
      return asItHandsOn(stage, () => kill(strike));
  }
}

/** Nobody dies where nothing is said before the shop is at rest. */
async function asItSays({ rehearsal, driver }: On, kill: () => Promise<void>): Promise<void> {
  let killing: Promise<void> | null = null;
  const off = rehearsal.on('call', ({ method }) => {
    if (method === 'sendMessage') killing ??= kill();
  });
  await untilQuiet(driver, () => killing !== null).finally(off);
  await killing;
}

async function asItHandsOn({ record, driver }: On, kill: () => Promise<void>): Promise<void> {
  let isOver = false;
  let killing: Promise<void> | null = null;
  const quiet = untilQuiet(driver, () => killing !== null).finally(() => {
    isOver = true;
  });
  while (!isOver && (await record.outbox.size()) === 0) await nextTurn();
  if (!isOver) killing = kill();
  await Promise.all([quiet, killing]);
}

/** While something is down, Redis above all, the shop can't be asked whether it is at rest. */
async function untilQuiet(driver: On['driver'], isKilling: () => boolean): Promise<void> {
  await driver.quiet().catch((error: unknown) => {
    if (!isKilling()) throw error;
  });
}
