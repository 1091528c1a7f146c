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
import { countMarked, lookBack, sayAgain } from './ending.js';
import type { Happened } from './journal.js';
import { keepJournal } from './journal.js';
import type { Killed } from './kills.js';
import { APART, JOINT } from './kills.js';
import type { KillOptions } from './under-kills.js';
import { PATIENCE_MS, UNDER_FAULTS, withKills } from './under-kills.js';
import { makeTelling } from './telling.js';
import { makeWatch } from './watch.js';

export type YearOptions = KillOptions & {
  jobs: number;
  suppliers: number;
  days: number;
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

export type YearPlayed = {
  count: YearCount;
  breach: Breach | null;
  happened: readonly Happened[];
  /** Messages that the record has as perhaps repeated. */
  marked: number;
};

const FIRST_DAY = '2026-01-05';
const FAULTS_A_DAY = 0.15;
const LINKED = 0.5;

/** Plays a year, or its first days, in a shop; the same options give the same talk. Stops at the first day on which something does not hold. */
export async function playYear(options: YearOptions): Promise<YearPlayed> {
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
  const world = peopled(
    options,
    dice,
    stage,
    answers,
    withKills(options, stage, journal, (what) => struck(`killed ${what}`)),
  );
  try {
    const befalls = (fault: Fault): void => {
      struck(fault);
      const update = stage.rehearsal.updateCount;
      if (fault === 'said-again') note({ kind: 'told-again', at: stage.driver.now(), update });
    };
    const play = async (): Promise<Breach | null> =>
      (await days(world, options, count, happened, befalls)) ??
      atTheEnd([...(await lookBack(stage, happened)), ...(await sayAgain(stage, happened, dice))]);
    const breach = await Promise.race([play(), stage.failed]);
    return { count, happened, breach, marked: await countMarked(stage.record) };
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
  return {
    dice,
    mechanics,
    suppliers,
    jobs,
    telling,
    stage,
    rehearsal: stage.rehearsal,
    newChat,
    answers,
    notes: [],
    passes: [],
    released: [],
  };
}

async function days(
  world: World,
  { days: length }: YearOptions,
  count: YearCount,
  happened: readonly Happened[],
  struck: (fault: Fault) => void,
): Promise<Breach | null> {
  const { dice, stage } = world;
  const watch = makeWatch(world, () => faultsLeavingOpen(count), happened);
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
