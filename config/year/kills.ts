import { createHash } from 'node:crypto';
import { setImmediate as nextTurn, setTimeout as pause } from 'node:timers/promises';
import { randomFrom } from '../../src/plan/random.js';
import type { ApiCall } from '../../bot/rehearsal/happenings.js';
import type { WorkerName } from '../../workers/workers.js';
import { WORKERS } from '../../workers/workers.js';
import type { Stage } from '../demo/stage.js';
import { diceOf } from './names.js';

/** The service of the play: who listens and who works are processes of their own, or each worker is one too. */
export const JOINT = ['bot', 'relay,wake,send,fetch,transcribe'] as const;
export const APART = ['bot', ...WORKERS] as const;
export type Parts = 'joint' | 'apart';

export type Killed = 'bot' | 'workers' | WorkerName | 'redis';

/**
 * When something dies: some moments after something began; as the chat's server has a message and whoever sent it has not been
 * told so yet, the same of one to a supplier or owner; as effects wait to be handed on; or as a file of the chat is asked for.
 */
export type Moment = 'after' | 'as-it-says' | 'as-it-chases' | 'as-it-hands-on' | 'as-it-fetches';
export type Struck = { what: Killed; when: Moment };
export type Strike = Struck & { ms: number };

/** What is under way: something said or pressed, a wake, or a picture or voice note that was sent. */
export type During = 'talk' | 'wake' | 'file';

const LATEST_MS = 12;

/** Who may die while somebody's talk, or a wake, is under way; whoever stands twice is likelier to. */
const TARGETS: Readonly<Record<Parts, Record<During, readonly Killed[]>>> = {
  joint: {
    talk: ['bot', 'workers', 'redis'],
    wake: ['workers', 'workers', 'redis'],
    file: ['workers', 'redis'],
  },
  apart: {
    talk: ['bot', 'relay', 'send', 'fetch', 'transcribe', 'redis'],
    wake: ['wake', 'relay', 'send', 'send', 'redis'],
    file: ['fetch', 'fetch', 'transcribe', 'redis'],
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

/** Who dies in the sending of a message to a supplier or owner. */
const CHASING: Readonly<Record<Parts, readonly Killed[]>> = {
  joint: ['workers', 'workers', 'redis'],
  apart: ['send', 'send', 'redis'],
};

/** The chances that something dies: while what was said is handled, in a wake, else in its first message to a supplier or owner, and while a file is fetched. */
export type Chances = { talk: number; wake: number; chaser: number; file: number };

/**
 * What dies at a point of the play, if anything does: by the seed and the point's own name alone, so that how often the shop
 * was woken before, which may hang on the machine, changes nothing.
 */
export function drawStrike(
  seed: number,
  point: { during: During; name: string },
  chances: Chances,
  parts: Parts,
): Strike | null {
  const { during, name } = point;
  const hash = createHash('sha256').update(`${seed} ${during} ${name}`).digest();
  const dice = diceOf(randomFrom(hash.readInt32LE()));
  const isStruck = dice.chance(chances[during]);
  const what = dice.pick(isStruck ? TARGETS[parts][during] : CHASING[parts]);
  const ms = dice.whole(0, LATEST_MS);
  const moments: readonly Moment[] = during === 'file' ? ['after', 'as-it-fetches'] : MOMENTS[what];
  if (isStruck) return { what, when: dice.pick(moments), ms };
  return during === 'wake' && dice.chance(chances.chaser) ? { what, when: 'as-it-chases', ms } : null;
}

export type KillerOptions = {
  seed: number;
  chances: Chances;
  parts: Parts;
  /** Whether a chat is a supplier's or owner's. */
  isChased: (chat: number) => boolean;
  /** Called as something dies. */
  struck: (struck: Struck) => void;
};

export type Killer = {
  /** To be called while what somebody did is under way. */
  inTalk: () => Promise<void>;
  /** The same of a picture or voice note. */
  inFile: () => Promise<void>;
  /** To be called while a wake is under way. */
  inWake: (at: number) => Promise<void>;
};

type On = Pick<Stage, 'replace' | 'killRedis' | 'rehearsal' | 'driver'> & {
  record: Pick<Stage['record'], 'outbox'>;
};

/** Kills parts of the service, or Redis, at points that the seed gives; each comes up again. */
export function makeKiller(stage: On, options: KillerOptions): Killer {
  const { seed, chances, parts, struck } = options;
  let talked = 0;
  const woken = new Set<number>();
  const kill = async ({ what, when }: Strike): Promise<void> => {
    struck({ what, when });
    if (what === 'redis') await stage.killRedis();
    else await stage.replace(what === 'workers' ? JOINT[1] : what);
  };
  const at = async (during: During, name: string): Promise<void> => {
    const strike = drawStrike(seed, { during, name }, chances, parts);
    if (strike !== null) await carryOut(stage, strike, () => kill(strike), options);
  };
  return {
    inTalk: () => at('talk', `${(talked += 1)}`),
    inFile: () => at('file', `${(talked += 1)}`),
    inWake: async (instant) => {
      if (woken.has(instant)) return;
      woken.add(instant);
      await at('wake', `${instant}`);
    },
  };
}

async function carryOut(
  stage: On,
  strike: Strike,
  kill: () => Promise<void>,
  { isChased }: Pick<KillerOptions, 'isChased'>,
): Promise<void> {
  switch (strike.when) {
    case 'after':
      // Machine time: somewhere in the handling of what began.
      await pause(strike.ms);
      return kill();
    case 'as-it-says':
      return asItCalls(stage, kill, ({ method }) => method === 'sendMessage');
    case 'as-it-chases':
      return asItCalls(
        stage,
        kill,
        ({ method, params }) => method === 'sendMessage' && isChased(Number(params['chat_id'])),
      );
    case 'as-it-fetches':
      return asItCalls(stage, kill, ({ method }) => method === 'getFile');
    case 'as-it-hands-on':
      return asItHandsOn(stage, kill);
  }
}

/** Nobody dies where the chat's server is not called so before the shop is at rest. */
async function asItCalls(
  { rehearsal, driver }: On,
  kill: () => Promise<void>,
  isMeant: (call: ApiCall) => boolean,
): Promise<void> {
  const kills: Promise<void>[] = [];
  const off = rehearsal.on('call', (call) => {
    if (kills.length === 0 && isMeant(call)) kills.push(kill());
  });
  await untilQuiet(driver, kills).finally(off);
  await Promise.all(kills);
}

async function asItHandsOn({ record, driver }: On, kill: () => Promise<void>): Promise<void> {
  let isOver = false;
  const kills: Promise<void>[] = [];
  const quiet = untilQuiet(driver, kills).finally(() => {
    isOver = true;
  });
  while (!isOver && (await record.outbox.size()) === 0) await nextTurn();
  if (!isOver) kills.push(kill());
  await Promise.all([quiet, ...kills]);
}

/** While something is down, Redis above all, the shop can't be asked whether it is at rest. */
async function untilQuiet(driver: On['driver'], kills: readonly unknown[]): Promise<void> {
  await driver.quiet().catch((error: unknown) => {
    if (kills.length === 0) throw error;
  });
}
