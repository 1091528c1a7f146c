import { ofTrade } from './cast.js';
import { spoken, workday } from './days.js';
import { PIECES } from './finds.js';
import type { Away, JobRun } from './job-run.js';
import { countOne } from './ledger.js';
import { itemsCalled, standingOf } from './standing.js';
import type { World } from './world.js';
import { note, on } from './world.js';

/** A thing that is away comes, in part, badly done, not done at all or as it should; or its supplier gives a new date. */
export async function awaitOne(world: World, run: JobRun, away: Away, day: string): Promise<void> {
  if (away.comesOn > day) return giveNewDate(world, run, away, day);
  const { first, part, supplier } = away;
  away.first = 'good';
  switch (first) {
    case 'poor':
      return refuse(world, run, away, day);
    case 'undone':
      return handBack(world, run, away, day);
    case 'part':
      return comeInPart(world, run, away, day);
    case 'good': {
      run.away.splice(run.away.indexOf(away), 1);
      noteBack(world, run, away, false);
      const what = away.isRest === true ? `last ${PIECES.one}` : part;
      await on(world, run, `${what} back from ${supplier.name}, lovely job`);
      await mustBe(world, run, part, 'back');
    }
  }
}

async function refuse(world: World, run: JobRun, away: Away, day: string): Promise<void> {
  const { part, supplier } = away;
  countOne(world.ledger, 'poor work refused');
  noteBack(world, run, away, true);
  await on(world, run, `${part} back from ${supplier.name} but it is poor work, refused it`);
  await mustBe(world, run, part, 'refused');
  promiseAnew(world, run, away, day);
  await on(world, run, `sent the ${part} back to ${supplier.name}, due ${spoken(away.promised)}`);
}

/** The supplier will not do it: says so, where they have a chat, and hands it back; it goes to another of the trade. */
async function handBack(world: World, run: JobRun, away: Away, day: string): Promise<void> {
  const { dice, suppliers, telling } = world;
  const { part, supplier } = away;
  countOne(world.ledger, 'work handed back undone');
  if (supplier.chat)
    await telling.say(
      supplier.chat,
      `Sorry, we can’t take the ${part} of the ${run.title} on, it is coming back to you`,
    );
  noteBack(world, run, away, true);
  await on(world, run, `${part} back from ${supplier.name}, not done`);
  await mustBe(world, run, part, 'refused');
  const others = ofTrade(suppliers, supplier.trade).filter((each) => each !== supplier);
  if (others.length > 0) away.supplier = dice.pick(others);
  run.dealtWith.add(away.supplier);
  promiseAnew(world, run, away, day);
  await on(world, run, `sent the ${part} to ${away.supplier.name}, due ${spoken(away.promised)}`);
}

async function comeInPart(world: World, run: JobRun, away: Away, day: string): Promise<void> {
  const { part, supplier } = away;
  countOne(world.ledger, 'returns in part');
  away.isRest = true;
  away.comesOn = workday(day, world.dice.whole(2, 6));
  await on(world, run, `three of the four ${part} back from ${supplier.name}`);
  await mustBe(world, run, part, 'part');
}

function noteBack(world: World, run: JobRun, { part, supplier }: Away, refused: boolean): void {
  note(world, run, { what: 'back', part, supplier: supplier.name, refused });
}

function promiseAnew(world: World, run: JobRun, away: Away, day: string): void {
  away.promised = workday(day, 8);
  away.comesOn = workday(away.promised, world.dice.whole(-1, 4));
  const { part, supplier, kind, promised } = away;
  note(world, run, { what: 'out', part, supplier: supplier.name, kind, promised });
}

async function giveNewDate(world: World, run: JobRun, away: Away, day: string): Promise<void> {
  const { chat } = away.supplier;
  if (chat === null || away.promised >= day || !world.dice.chance(0.4)) return;
  const has = world.jobs.flatMap((each) => each.away.filter(({ supplier }) => supplier === away.supplier));
  if (has.length > 1) return;
  away.promised = workday(day, world.dice.whole(3, 8));
  world.answers.push({
    ...{ who: away.supplier.name, promised: away.promised, part: away.part },
    at: world.stage.driver.now() / 1000,
  });
  const { part, supplier, promised } = away;
  note(world, run, { what: 'new-date', part, supplier: supplier.name, promised });
  await world.telling.say(chat, `Sorry, running late: it will be ${spoken(away.promised)} now`);
}

/** What came is what the record has of it. */
async function mustBe(
  world: World,
  run: JobRun,
  part: string,
  status: 'back' | 'part' | 'refused',
): Promise<void> {
  const state = await standingOf(world.stage.record, run);
  const numbers = state === null ? [] : itemsCalled(state, part).map(({ number }) => number);
  const last = Object.values(state?.lines ?? {}).findLast(({ item }) => numbers.includes(item));
  if (last?.status !== status)
    world.ledger.breaches.push(
      `${run.title}: the ${part} should stand as ‘${status}’, and is ‘${last?.status ?? 'not there'}’`,
    );
}
