import { DateTime } from 'luxon';
import { randomFrom } from '../../src/plan/random.js';
import { openStage } from '../demo/stage.js';
import { SHOP_FILE } from '../demo/scenario/cast.js';
import { MECHANIC_CHATS, makeSuppliers, seatMechanics } from './cast.js';
import type { Fault } from './faults.js';
import { strike } from './faults.js';
import { instant } from '../demo/shop-time.js';
import { clockChanges, dayAfter, spoken } from './days.js';
import { makeForgetting } from './forgetting.js';
import { perhapsStranger } from './guests.js';
import { newRun } from './job-run.js';
import type { Counted } from './ledger.js';
import { isClosed, newLedger } from './ledger.js';
import type { Dice } from './names.js';
import { diceOf, makeNames } from './names.js';
import { askOfAnEvening } from './owner-questions.js';
import { passGates, playDay } from './play.js';
import { countMarked, lookBack, sayAgain } from './ending.js';
import type { Happened } from './journal.js';
import { keepJournal } from './journal.js';
import type { Chances, Killed, Parts } from './kills.js';
import { APART, JOINT } from './kills.js';
import type { Tally } from './tally.js';
import { tallyOf } from './tally.js';
import { PATIENCE_MS, UNDER_FAULTS, withKills } from './under-kills.js';
import { makeTelling } from './telling.js';
import { makeWatch } from './watch.js';
import { keptAnywhere, makePlayWatch } from './watch-play.js';
import type { World } from './world.js';
import { firstMechanic, isKnown } from './world.js';

export type YearOptions = {
  seed: number;
  /** The chance that something is killed while a message is handled. */
  kills: number;
  /** The same of each wake, and else of each wake's first message to a supplier or owner. (Default: as `kills`) */
  killsInWakes?: Pick<Chances, 'wake' | 'chaser'>;
  /** The workers together in one process, or each in its own. (Default: joint) */
  parts?: Parts;
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
  /** What people did besides, by kind. */
  happened: Partial<Record<Counted, number>>;
  clockChanges: readonly string[];
  daysClosed: number;
  /** Null where the play broke off. */
  tally: Tally | null;
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
/** The parts of the time after which somebody is forgotten, and the shop is closed. */
const FORGETS_FROM = 0.55;
const CLOSED_AT = 0.4;
const CLOSES_FROM = 21;

const newCount = (): YearCount => ({
  ...{ days: 0, said: 0, opened: 0, handedOver: 0, answers: 0, faults: {} },
  ...{ happened: {}, clockChanges: [], daysClosed: 0, tally: null },
});

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
  const count = newCount();
  const struck = (fault: keyof YearCount['faults']): void => {
    count.faults[fault] = (count.faults[fault] ?? 0) + 1;
  };
  const journal = keepJournal(stage.rehearsal);
  const { happened, note } = journal;
  const killer = withKills(stage, journal, killsOf(options));
  const world = peopled(options, dice, stage, killer.inTalk);
  try {
    const befalls = (fault: Fault): void => {
      struck(fault);
      const update = stage.rehearsal.updateCount;
      if (fault === 'said-again') note({ kind: 'told-again', at: stage.driver.now(), update });
    };
    const play = async (): Promise<Breach | null> =>
      (await days(world, options, count, happened, befalls)) ?? atTheEnd(await ending(world, happened));
    const breach = await Promise.race([play(), stage.failed]);
    count.tally = await tallyOf(world);
    return { count, happened, breach, marked: await countMarked(stage.record) };
  } finally {
    for (const entry of happened) if (entry.kind === 'killed') struck(`killed ${entry.what}`);
    count.said = world.telling.said();
    count.answers = world.answers.length;
    count.happened = world.ledger.counts;
    count.clockChanges = clockChanges(FIRST_DAY, count.days);
    count.opened = world.jobs.filter((run) => run.stage !== 'to-come').length;
    count.handedOver = world.jobs.filter((run) => run.stage === 'gone').length;
    await stage.stop();
  }
}

function killsOf({
  seed,
  kills,
  killsInWakes,
  parts = 'joint',
}: YearOptions): Parameters<typeof withKills>[2] {
  const { wake, chaser } = killsInWakes ?? { wake: kills, chaser: kills };
  return {
    ...{ seed, parts, chances: { talk: kills, file: kills, wake, chaser } },
    isChased: (chat) => !MECHANIC_CHATS.includes(chat),
  };
}

/** What does not hold in the end. Of those whom the shop does not know it keeps nothing; who is forgotten takes with them what quoted them. */
async function ending(world: World, happened: readonly Happened[]): Promise<string[]> {
  const { stage, dice, ledger } = world;
  const { forgotten } = ledger;
  return [
    ...(await lookBack(stage, happened, { forgotten, isKnown: (act) => isKnown(world, act) })),
    ...(await sayAgain(stage, happened, dice, forgotten)),
  ];
}

const atTheEnd = (breaches: readonly string[]): Breach | null =>
  breaches.length > 0 ? { day: 'the last day', breaches } : null;

function peopled(
  options: YearOptions,
  dice: Dice,
  stage: World['stage'],
  killer: () => Promise<void>,
): World {
  const nextName = makeNames(dice);
  const suppliers = makeSuppliers(options.suppliers, dice, nextName);
  const spread = Math.max(1, Math.floor(options.days * 0.6));
  const jobs = Array.from({ length: options.jobs }, () => {
    const opensOn = options.atOnce === true ? FIRST_DAY : dayAfter(FIRST_DAY, dice.whole(0, spread));
    return newRun(nextName(), { name: `Mrs ${nextName()}`, chat: null, isForgotten: false }, opensOn);
  });
  const mechanics = seatMechanics(stage.rehearsal);
  const telling = makeTelling(stage, killer);
  let chats = 2000;
  const newChat = (firstName: string) => stage.rehearsal.person({ id: (chats += 1), firstName });
  return {
    ...{ dice, mechanics, suppliers, jobs, telling, stage, rehearsal: stage.rehearsal },
    ...{ newChat, newName: nextName, answers: [], notes: [], passes: [], released: [] },
    ledger: newLedger(),
  };
}

async function days(
  world: World,
  { days: length }: YearOptions,
  count: YearCount,
  happened: readonly Happened[],
  struck: (fault: Fault) => void,
): Promise<Breach | null> {
  const { stage } = world;
  const watch = makeWatch(world, happened);
  const watchPlay = makePlayWatch(world, happened);
  const forgetting = makeForgetting(world, dayAfter(FIRST_DAY, Math.floor(length * FORGETS_FROM)));
  await enterSuppliers(world);
  await closeForAWeek(world, length);
  for (let ahead = 0; ahead < length; ahead += 1) {
    const day = dayAfter(FIRST_DAY, ahead);
    await stage.driver.moveTo(Math.max(stage.driver.now(), instant(day, '09:40')));
    if (isClosed(world.ledger.closed, day)) count.daysClosed += 1;
    else if (isWeekday(day)) await workADay(world, day, forgetting, struck);
    await askOfAnEvening(world, day);
    await stage.driver.moveTo(instant(day, '23:00'));
    const breaches = [...(await watch()), ...(await watchPlay())];
    if (ahead === length - 1) breaches.push(...(await keptAnywhere(world)));
    if (breaches.length > 0) return { day, breaches };
    count.days += 1;
  }
  return null;
}

async function workADay(
  world: World,
  day: string,
  forgetting: (day: string) => Promise<void>,
  struck: (fault: Fault) => void,
): Promise<void> {
  if (world.dice.chance(FAULTS_A_DAY)) struck(strike(world, world.dice));
  await playDay(world, day);
  await passGates(world);
  await perhapsStranger(world);
  await forgetting(day);
}

const isWeekday = (day: string): boolean => DateTime.fromISO(day).weekday <= 5;

/** A week somewhat before the middle on which nobody is there; a play of few days has none. */
async function closeForAWeek(world: World, length: number): Promise<void> {
  if (length < CLOSES_FROM) return;
  let from = dayAfter(FIRST_DAY, Math.floor(length * CLOSED_AT));
  while (DateTime.fromISO(from).weekday !== 1) from = dayAfter(from, 1);
  const to = dayAfter(from, 4);
  await world.telling.say(firstMechanic(world), `we are closed from ${spoken(from)} to ${spoken(to)}`);
  world.ledger.closed.push({ from, to });
}

/** Each supplier is entered with what they do; some come into the chat. */
async function enterSuppliers(world: World): Promise<void> {
  const { dice, suppliers, telling, newChat } = world;
  const mechanic = firstMechanic(world);
  for (const supplier of suppliers) {
    const work = supplier.trade === 'parts' ? 'parts' : supplier.trade.word;
    await telling.say(mechanic, `supplier ${supplier.name}, ${work}, ${supplier.number}`);
    if (!dice.chance(LINKED)) continue;
    supplier.chat = newChat(supplier.name);
    await telling.invite(mechanic, supplier.name, supplier.chat);
  }
}
