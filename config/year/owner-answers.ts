import { workday } from './days.js';
import type { JobRun } from './job-run.js';
import { countOne } from './ledger.js';
import { itemsCalled, standingOf } from './standing.js';
import type { World } from './world.js';
import { note, noteWork, on } from './world.js';

/** The owner is asked about all that was found, and answers, today or days later. */
export async function askOwner(world: World, run: JobRun, day: string): Promise<void> {
  if (run.owner.chat === null) {
    note(world, run, { what: 'agreed' });
    await on(world, run, 'owner agreed to all of it');
    run.stage = 'decided';
    return;
  }
  await on(world, run, 'ask the owner');
  run.answersOn = world.dice.chance(0.5) ? day : workday(day, world.dice.whole(1, 6));
  run.stage = 'asked';
  if (run.answersOn <= day) await ownerAnswers(world, run, day);
}

/** The owner's yes, no, 'too dear' or 'ask me again', and what the mechanic does about it. */
export async function ownerAnswers(world: World, run: JobRun, day: string): Promise<void> {
  const roll = world.dice.whole(1, 20);
  if (roll <= 9 || run.goings.length === 0) await sayYes(world, run);
  else if (roll <= 13) await noToOne(world, run);
  else if (roll <= 16) await tooDear(world, run);
  else if (roll <= 18) await askMeAgain(world, run, day);
  else await noToAll(world, run);
}

/** Asked again after the time they wanted, they say yes. */
export async function askAgain(world: World, run: JobRun): Promise<void> {
  await on(world, run, 'ask the owner');
  await sayYes(world, run);
}

async function sayYes(world: World, run: JobRun): Promise<void> {
  note(world, run, { what: 'agreed' });
  await tell(world, run, 'Yes to all of it, please go ahead');
  run.stage = 'decided';
}

const tell = async (world: World, { owner }: JobRun, words: string): Promise<void> => {
  if (owner.chat) await world.telling.say(owner.chat, words);
};

/** One thing is not to be done: it is cleaned here instead. */
async function noToOne(world: World, run: JobRun): Promise<void> {
  const { part } = world.dice.pick(run.goings);
  await tell(world, run, `Yes to all of it, but not the ${part} please`);
  countOne(world.ledger, 'jobs that an owner said no in');
  await mustNotBeAgreed(world, run, part);
  await cleanInstead(world, run, part);
  note(world, run, { what: 'agreed' });
  run.stage = 'decided';
}

async function cleanInstead(world: World, run: JobRun, part: string): Promise<void> {
  noteWork(world, run, part);
  await on(world, run, `${part}: just clean it then`);
  run.goings = run.goings.filter((going) => going.part !== part);
}

/** A price is too dear: another is found, and the owner asked again. */
async function tooDear(world: World, run: JobRun): Promise<void> {
  const { part } = world.dice.pick(run.goings);
  await tell(world, run, `Yes to all of it, but the ${part} not at that price please`);
  countOne(world.ledger, 'owners to whom a price was too dear');
  await mustNotBeAgreed(world, run, part);
  await on(world, run, `${part}, ${world.dice.whole(11, 19)} quid`);
  await on(world, run, 'ask the owner');
  await sayYes(world, run);
  await mustBeAgreed(world, run, part);
}

async function askMeAgain(world: World, run: JobRun, day: string): Promise<void> {
  await tell(
    world,
    run,
    world.dice.pick(['Not now, please ask me again next week', 'Let’s talk about it first']),
  );
  countOne(world.ledger, 'owners who wanted to be asked again');
  for (const { part } of run.goings) await mustNotBeAgreed(world, run, part);
  run.answersOn = workday(day, 5);
  run.stage = 'ask-again';
}

/** Nothing is to be done; then, on the telephone, some of it is. */
async function noToAll(world: World, run: JobRun): Promise<void> {
  const { owner } = run;
  if (owner.chat === null || !(await world.telling.press(owner.chat, { do: 'owner-answer', outcome: 'no' })))
    await tell(world, run, 'No to all of it for now');
  countOne(world.ledger, 'jobs that an owner said no in');
  for (const { part } of run.goings) await mustNotBeAgreed(world, run, part);
  for (const { part } of [...run.goings]) {
    if (world.dice.chance(0.5)) await on(world, run, `owner agreed to the ${part} after all`);
    else await cleanInstead(world, run, part);
  }
  note(world, run, { what: 'agreed' });
  run.stage = 'decided';
}

async function mustNotBeAgreed(world: World, run: JobRun, part: string): Promise<void> {
  if (await isAgreed(world, run, part))
    world.ledger.breaches.push(
      `${run.title}: the ${part} stands as agreed, and the owner did not agree to it`,
    );
}

async function mustBeAgreed(world: World, run: JobRun, part: string): Promise<void> {
  if (!(await isAgreed(world, run, part)))
    world.ledger.breaches.push(`${run.title}: the owner agreed to the ${part}, and it does not stand`);
}

async function isAgreed({ stage }: World, run: JobRun, part: string): Promise<boolean> {
  const state = await standingOf(stage.record, run);
  const items = state === null ? [] : itemsCalled(state, part);
  return items.some(({ agreement }) => agreement.status === 'yes');
}
