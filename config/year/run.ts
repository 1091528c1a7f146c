import { DateTime } from 'luxon';
import { randomFrom } from '../../src/plan/random.js';
import { openStage } from '../demo/stage.js';
import { SHOP_FILE } from '../demo/scenario/cast.js';
import { MECHANIC_CHATS, makeSuppliers, seatMechanics } from './cast.js';
import type { Fault } from './faults.js';
import { strike } from './faults.js';
import type { Answer } from './invariants/messages.js';
import type { JobRun } from './job-run.js';
import type { Dice } from './names.js';
import { diceOf, makeNames } from './names.js';
import type { World } from './play.js';
import { passGates, playDay, ZONE } from './play.js';
import { lookBack } from './ending.js';
import type { Happened, Journal } from './journal.js';
import { keepJournal } from './journal.js';
import type { Killed, Parts } from './kills.js';
import { APART, JOINT, makeKiller } from './kills.js';
import { makeTelling } from './telling.js';
import { makeWatch } from './watch.js';

export type YearOptions = {
  seed: number;
  jobs: number;
  suppliers: number;
  days: number;
  /** The chance that something is killed while a message is handled. */
  kills: number;
  /** The same of each wake. (Default: as `kills`) */
  killsInWakes?: number;
  /** The workers together in one process, or each in its own. (Default: joint) */
  parts?: Parts;
  /** All jobs come in on the first day. (Default: spread over the time) */
  atOnce?: boolean;
};

export type YearCount = {
  days: number;
  said: number;
  opened: number;
  handedOver: number;
  answers: number;
  faults: Partial<Record<Fault | `killed ${Killed}`, number>>;
  checks: number;
};

/** What did not hold, and the day after which it did not. */
export type Breach = { day: string; breaches: readonly string[] };

const FIRST_DAY = '2026-01-05';
/**
 * A killed worker's work is taken up when its lock runs out; one thing is sent at a time, so that one death leaves one open. Nobody
 * speaks in the play: no model of speech is made at each start.
 */
export const UNDER_FAULTS = { WORKER_LOCK_SECONDS: '2', WORKER_CONCURRENCY: '1', SPEECH_COMMAND: 'true' };
/** With processes starting again on a busy machine. */
export const PATIENCE_MS = 60_000;
const FAULTS_A_DAY = 0.15;
const LINKED = 0.5;

/** Plays a year, or its first days, in a shop; the same options give the same talk. Stops at the first day on which something does not hold. */
export async function playYear(
  options: YearOptions,
): Promise<{ count: YearCount; breach: Breach | null; happened: readonly Happened[] }> {
  const dice = diceOf(randomFrom(options.seed));
  const stage = await openStage({
    startAt: instant(FIRST_DAY, '08:20'),
    shopFile: SHOP_FILE,
    mechanics: MECHANIC_CHATS,
    parts: options.parts === 'apart' ? APART : JOINT,
    env: UNDER_FAULTS,
    patienceMs: PATIENCE_MS,
    ...(options.kills > 0 ? { fsync: 'always' as const } : {}),
  });
  const answers: Answer[] = [];
  const count: YearCount = { days: 0, said: 0, opened: 0, handedOver: 0, answers: 0, faults: {}, checks: 0 };
  const struck = (fault: keyof YearCount['faults']): void => {
    count.faults[fault] = (count.faults[fault] ?? 0) + 1;
  };
  const journal = keepJournal(stage.rehearsal);
  const { happened, note } = journal;
  const world = peopled(options, dice, stage, answers, withKills(options, stage, journal, count));
  try {
    const befalls = (fault: Fault): void => {
      struck(fault);
      const update = stage.rehearsal.updateCount;
      if (fault === 'said-again') note({ kind: 'told-again', at: stage.driver.now(), update });
    };
    const play = async (): Promise<Breach | null> =>
      (await days(world, options, count, befalls)) ?? atTheEnd(await lookBack(stage, happened));
    const breach = await Promise.race([play(), stage.failed]);
    return { count, happened, breach };
  } finally {
    count.said = world.telling.said();
    count.answers = answers.length;
    count.opened = world.jobs.filter((run) => run.stage !== 'to-come').length;
    count.handedOver = world.jobs.filter((run) => run.stage === 'gone').length;
    await stage.stop();
  }
}

const atTheEnd = (breaches: readonly string[]): Breach | null =>
  breaches.length > 0 ? { day: 'the last day', breaches } : null;

/** Notes each wake and each death, and gives what is to be called while talk is under way. */
function withKills(
  { seed, kills, killsInWakes = kills, parts = 'joint' }: YearOptions,
  stage: World['stage'],
  { note }: Journal,
  { faults }: YearCount,
): () => Promise<void> {
  const at = stage.driver.now;
  const killer = makeKiller(stage, {
    ...{ seed, p: { talk: kills, wake: killsInWakes }, parts },
    struck: (struck) => {
      note({ kind: 'killed', at: at(), ...struck });
      faults[`killed ${struck.what}`] = (faults[`killed ${struck.what}`] ?? 0) + 1;
    },
  });
  stage.driver.whileWaking((instant) => {
    note({ kind: 'woken', at: instant });
    return killer.inWake(instant);
  });
  return killer.inTalk;
}

function peopled(
  options: YearOptions,
  dice: Dice,
  stage: World['stage'],
  answers: Answer[],
  killer: () => Promise<void>,
): World {
  const nextName = makeNames(dice);
  const suppliers = makeSuppliers(options.suppliers, dice, nextName);
  const spread = Math.max(1, Math.floor(options.days * 0.6));
  const jobs = Array.from({ length: options.jobs }, (): JobRun => ({
    title: nextName(),
    owner: { name: `Mrs ${nextName()}`, chat: null },
    opensOn: options.atOnce === true ? FIRST_DAY : dayAfter(FIRST_DAY, dice.whole(0, spread)),
    stage: 'to-come',
    ...{ finds: [], goings: [], away: [], works: [], dealtWith: new Set() },
  }));
  const mechanics = seatMechanics(stage.rehearsal);
  const telling = makeTelling(stage, killer);
  let chats = 2000;
  const newChat = (firstName: string) => stage.rehearsal.person({ id: (chats += 1), firstName });
  return { dice, mechanics, suppliers, jobs, telling, stage, rehearsal: stage.rehearsal, newChat, answers };
}

async function days(
  world: World,
  { days: length }: YearOptions,
  count: YearCount,
  struck: (fault: Fault) => void,
): Promise<Breach | null> {
  const { dice, stage } = world;
  const watch = makeWatch(world, () => faultsLeavingOpen(count));
  await enterSuppliers(world);
  for (let ahead = 0; ahead < length; ahead += 1) {
    const day = dayAfter(FIRST_DAY, ahead);
    const isWorked = DateTime.fromISO(day).weekday <= 5;
    await stage.driver.moveTo(Math.max(stage.driver.now(), instant(day, '09:40')));
    if (isWorked) {
      if (dice.chance(FAULTS_A_DAY)) struck(strike(world, dice));
      await playDay(world, day);
      await passGates(world);
    }
    await stage.driver.moveTo(instant(day, '23:00'));
    count.days += 1;
    count.checks += 1;
    const breaches = await watch();
    if (breaches.length > 0) return { day, breaches };
  }
  return null;
}

/** Faults after which nobody can know whether a message went: an update that comes again, and a 429, are none. */
const faultsLeavingOpen = ({ faults }: YearCount): number =>
  Object.entries(faults)
    .filter(([fault]) => fault !== 'said-again' && fault !== 'too-many')
    .reduce((sum, [, times]) => sum + times, 0);

/** Each supplier is entered with what they do; some come into the chat. */
async function enterSuppliers({ dice, suppliers, telling, mechanics, newChat }: World): Promise<void> {
  const [mechanic] = mechanics;
  if (!mechanic) throw new Error('a shop has a mechanic');
  for (const supplier of suppliers) {
    const work = supplier.trade === 'parts' ? 'parts' : supplier.trade.word;
    await telling.say(mechanic, `supplier ${supplier.name}, ${work}, ${supplier.number}`);
    if (!dice.chance(LINKED)) continue;
    supplier.chat = newChat(supplier.name);
    await telling.invite(mechanic, supplier.name, supplier.chat);
  }
}

const instant = (day: string, time: string): number =>
  DateTime.fromISO(`${day}T${time}`, { zone: ZONE }).toMillis();
const dayAfter = (day: string, days: number): string =>
  DateTime.fromISO(day).plus({ days }).toISODate() ?? day;
