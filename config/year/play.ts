import { GATES } from '../../src/trade/terms.js';
import { drawFinds, foundIn } from './finds.js';
import { spoken, workday } from './days.js';
import { wrongGuest } from './guests.js';
import type { Released } from './invariants/expected-owners.js';
import type { Away, JobRun } from './job-run.js';
import type { Pass } from './notes.js';
import { askAgain, askOwner, ownerAnswers } from './owner-answers.js';
import { awaitOne } from './returns.js';
import { mend, ride } from './road-test.js';
import { slip } from './slips.js';
import { standingOf } from './standing.js';
import type { World } from './world.js';
import { firstMechanic, note, on } from './world.js';

/** More buttons than a day of all jobs has; where one never goes, the play does not stand still. */
const PRESSES_AT_MOST = 60;
const SLIPS = 0.05;
/** How many owners’ links are opened by somebody else first. */
const WRONG_FIRST = 0.15;
/** How many jobs have a day by which the shop wants a gate passed. */
const WANTED = 0.4;

/** One working day of the shop. */
export async function playDay(world: World, day: string): Promise<void> {
  for (const run of world.jobs) await goOn(world, run, day);
  const { dice, telling, mechanics } = world;
  if (dice.chance(0.2))
    await telling.say(dice.pick(mechanics), dice.pick(['what’s overdue?', 'what’s next?']));
}

async function goOn(world: World, run: JobRun, day: string): Promise<void> {
  if (run.stage === 'to-come' && run.opensOn > day) return;
  switch (run.stage) {
    case 'to-come':
      return openJob(world, run);
    case 'looked-over':
      await perhapsSlip(world, run);
      return lookOver(world, run, day);
    case 'asked':
      return run.answersOn <= day ? ownerAnswers(world, run, day) : undefined;
    case 'ask-again':
      return run.answersOn <= day ? askAgain(world, run) : undefined;
    case 'decided':
      await perhapsSlip(world, run);
      return sendOut(world, run, day);
    case 'away':
      await perhapsSlip(world, run);
      return awaitAll(world, run, day);
    case 'built':
      await ride(world, run);
      return passGates(world);
    case 'faulty':
      await mend(world, run);
      return passGates(world);
    case 'ridden':
      return handOver(world, run);
    case 'gone':
  }
}

async function perhapsSlip(world: World, run: JobRun): Promise<void> {
  if (world.dice.chance(SLIPS)) await slip(world, run);
}

async function openJob(world: World, run: JobRun): Promise<void> {
  const mechanic = firstMechanic(world);
  drawFinds(run, world);
  await world.telling.say(
    mechanic,
    `new job: ${run.title} 350 single, owner ${run.owner.name}, already stripped`,
  );
  if (world.dice.chance(0.6)) {
    if (world.dice.chance(WRONG_FIRST)) await wrongGuest(world, run);
    else {
      run.owner.chat = world.newChat(run.owner.name);
      await world.telling.invite(mechanic, run.owner.name, run.owner.chat);
    }
  }
  run.stage = 'looked-over';
}

async function lookOver(world: World, run: JobRun, day: string): Promise<void> {
  for (const find of run.finds.splice(0, 3)) {
    note(world, run, foundIn(find));
    await on(world, run, find);
  }
  if (run.finds.length === 0) await askOwner(world, run, day);
}

async function sendOut(world: World, run: JobRun, day: string): Promise<void> {
  const { dice } = world;
  for (const going of run.goings.splice(0, 2)) {
    const promised = workday(day, dice.whole(5, 25));
    const comesOn = workday(promised, dice.chance(0.5) ? dice.whole(-2, 0) : dice.whole(1, 12));
    run.away.push({ ...going, promised, comesOn });
    run.dealtWith.add(going.supplier);
    const { part, supplier, kind } = going;
    note(world, run, { what: 'out', part, supplier: supplier.name, kind, promised });
    await on(world, run, `${goingWords(going)}, due ${spoken(promised)}`);
  }
  if (run.goings.length > 0) return;
  run.stage = 'away';
  if (dice.chance(WANTED)) await wantBy(world, run, day);
}

/** By a day that may be missed, or near already. */
async function wantBy(world: World, run: JobRun, day: string): Promise<void> {
  const { dice } = world;
  const gate = dice.pick(['reassembled', 'road-tested', null] as const);
  const by = workday(day, dice.whole(4, 30));
  note(world, run, { what: 'wanted', gate, by });
  await on(world, run, `want it ${gate ?? 'done'} by ${spoken(by)}`);
}

const goingWords = ({ kind, part, supplier }: Pick<Away, 'kind' | 'part' | 'supplier'>): string =>
  kind === 'sent' ? `sent the ${part} to ${supplier.name}` : `ordered the ${part} from ${supplier.name}`;

async function awaitAll(world: World, run: JobRun, day: string): Promise<void> {
  for (const away of [...run.away]) await awaitOne(world, run, away, day);
  for (const part of run.works.splice(0, 1)) {
    note(world, run, { what: 'worked', part });
    await on(world, run, `${part} done`);
  }
  if (run.away.length > 0 || run.works.length > 0) return;
  note(world, run, { what: 'built' });
  await on(world, run, 'steps 1 to 59 done');
  await passGates(world);
  run.stage = 'built';
}

async function handOver(world: World, run: JobRun): Promise<void> {
  const { ledger, stage } = world;
  note(world, run, { what: 'handed-over' });
  await on(world, run, 'handed over');
  run.stage = 'gone';
  const state = await standingOf(stage.record, run);
  const shut = GATES.filter((gate) => state?.gates[gate].passed !== true);
  if (state?.status !== 'handed-over') ledger.breaches.push(`${run.title} was handed over, and is not so`);
  if (shut.length > 0)
    ledger.breaches.push(
      `${run.title} was handed over with all done, and has not passed: ${shut.join(', ')}`,
    );
}

/** Every gate on offer is passed, and every notice shown to a mechanic let go. */
export async function passGates(world: World): Promise<void> {
  const { telling, mechanics, notes, passes, released, stage } = world;
  for (const mechanic of mechanics) {
    for (let pressed = 0; pressed < PRESSES_AT_MOST; pressed += 1) {
      // Before the press: what it was known by then.
      const after = notes.length;
      const passed = await telling.press(mechanic, { do: 'pass-gate' });
      if (passed) {
        const { job, gate } = telling.lastPressed() as Pick<Pass, 'job' | 'gate'>;
        passes.push({ job, gate, at: stage.driver.now(), after });
      }
      if (passed) continue;
      if (!(await telling.press(mechanic, { do: 'release-notice' }))) break;
      const { job, notice } = telling.lastPressed() as Pick<Released, 'job' | 'notice'>;
      released.push({ job, notice, at: stage.driver.now() });
    }
  }
}
