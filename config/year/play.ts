import { DateTime } from 'luxon';
import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { Stage } from '../demo/stage.js';
import type { SupplierRole } from './cast.js';
import type { Released } from './invariants/expected-owners.js';
import type { Answer } from './invariants/messages.js';
import { BOUGHT, CLEANED, TRADES } from './cast.js';
import type { Away, JobRun } from './job-run.js';
import type { Dice } from './names.js';
import type { Note, Pass } from './notes.js';
import type { Telling } from './telling.js';

export const ZONE = 'Europe/London';

/** The shop of the play, as its people know it. */
export type World = {
  dice: Dice;
  mechanics: readonly Person[];
  suppliers: readonly SupplierRole[];
  jobs: readonly JobRun[];
  telling: Telling;
  stage: Stage;
  rehearsal: Rehearsal;
  /** A chat of somebody new. */
  newChat: (firstName: string) => Person;
  /** New dates that suppliers gave in the chat. */
  answers: Answer[];
  /** All that happened, in its order. */
  notes: Note[];
  /** Buttons pressed to pass a gate. */
  passes: Pass[];
  /** Notices let go. */
  released: Released[];
};

type Happened = Note extends infer Each ? (Each extends Note ? Omit<Each, 'at' | 'job'> : never) : never;

const note = ({ notes, stage }: World, { title: job }: JobRun, happened: Happened): void => {
  notes.push({ at: stage.driver.now(), job, ...happened });
};

const REFUSED_FIRST = 0.1;

/** What a machine will turn out to want, drawn as it comes in. */
export function drawFinds(run: JobRun, { dice, suppliers }: Pick<World, 'dice' | 'suppliers'>): void {
  for (const trade of TRADES) {
    const able = suppliers.filter((each) => each.trade === trade);
    if (able.length === 0) continue;
    const part = dice.pick(trade.parts);
    run.finds.push(
      `${part} ${dice.pick(['rusty', 'worn', 'tired'])}, ${trade.said}, ${dice.whole(2, 14) * 10} quid`,
    );
    run.goings.push({
      ...{ part, supplier: dice.pick(able), kind: 'sent' },
      isRefusedFirst: dice.chance(REFUSED_FIRST),
    });
  }
  const dealers = suppliers.filter(({ trade }) => trade === 'parts');
  for (const part of dealers.length > 0 ? BOUGHT.filter(() => dice.chance(0.5)) : []) {
    run.finds.push(`${part} worn out, replace, ${dice.whole(1, 9) * 10} quid`);
    run.goings.push({ part, supplier: dice.pick(dealers), kind: 'ordered', isRefusedFirst: false });
  }
  for (const part of CLEANED.filter(() => dice.chance(0.6))) {
    run.finds.push(`${part} dirty, clean it`);
    run.works.push(part);
  }
}

/** One working day of the shop. */
export async function playDay(world: World, day: string): Promise<void> {
  for (const run of world.jobs) await goOn(world, run, day);
  const { dice, telling, mechanics } = world;
  if (dice.chance(0.2))
    await telling.say(dice.pick(mechanics), dice.pick(['what’s overdue?', 'what’s next?']));
}

async function goOn(world: World, run: JobRun, day: string): Promise<void> {
  const { dice } = world;
  if (run.stage === 'to-come' && run.opensOn <= day) return openJob(world, run);
  if (run.stage === 'to-come' || run.stage === 'gone') return;
  if (dice.chance(0.03)) await slip(world, run);
  if (run.owner.chat && dice.chance(0.03)) await world.telling.say(run.owner.chat, 'When will it be ready?');
  switch (run.stage) {
    case 'looked-over':
      return lookOver(world, run);
    case 'decided':
      return sendOut(world, run, day);
    case 'away':
      return await awaitAll(world, run, day);
    case 'built':
      return ride(world, run);
    case 'ridden':
      note(world, run, { what: 'handed-over' });
      await on(world, run, 'handed over');
      run.stage = 'gone';
  }
}

const on = (world: World, run: JobRun, words: string): Promise<void> =>
  world.telling.say(world.dice.pick(world.mechanics), `on the ${run.title}: ${words}`);

async function openJob(world: World, run: JobRun): Promise<void> {
  const [mechanic] = world.mechanics;
  if (!mechanic) throw new Error('a shop has a mechanic');
  drawFinds(run, world);
  await world.telling.say(
    mechanic,
    `new job: ${run.title} 350 single, owner ${run.owner.name}, already stripped`,
  );
  if (world.dice.chance(0.5)) {
    run.owner.chat = world.newChat(run.owner.name);
    await world.telling.invite(mechanic, run.owner.name, run.owner.chat);
  }
  run.stage = 'looked-over';
}

/** Something is said wrongly, and taken back. */
async function slip(world: World, run: JobRun): Promise<void> {
  const mechanic = world.dice.pick(world.mechanics);
  await world.telling.say(mechanic, `on the ${run.title}: left footrest bent, straighten it`);
  await world.telling.press(mechanic, { do: 'undo' });
}

async function lookOver(world: World, run: JobRun): Promise<void> {
  for (const find of run.finds.splice(0, 3)) {
    note(world, run, foundIn(find));
    await on(world, run, find);
  }
  if (run.finds.length > 0) return;
  if (run.owner.chat) {
    await on(world, run, 'ask the owner');
    await world.telling.say(run.owner.chat, 'Yes to all of it, please go ahead');
  } else await on(world, run, 'owner agreed to all of it');
  note(world, run, { what: 'agreed' });
  run.stage = 'decided';
}

/** A finding's words begin with the part and end with what is to be done. */
function foundIn(find: string): Happened {
  const part = find.replace(/ (rusty|worn|tired|dirty)\b.*$/, '');
  const wants = find.includes('send it') ? 'sent' : find.includes('replace') ? 'ordered' : 'done';
  return { what: 'found', part, wants, cost: Number(/(\d+) quid$/.exec(find)?.[1] ?? 0) };
}

async function sendOut(world: World, run: JobRun, day: string): Promise<void> {
  const { dice } = world;
  const going = run.goings.splice(0, 2);
  for (const each of going) {
    const promised = workday(day, dice.whole(5, 25));
    const comesOn = workday(promised, dice.chance(0.5) ? dice.whole(-2, 0) : dice.whole(1, 12));
    run.away.push({ ...each, promised, comesOn });
    run.dealtWith.add(each.supplier);
    const { part, supplier, kind } = each;
    note(world, run, { what: 'out', part, supplier: supplier.name, kind, promised });
    await on(world, run, `${goingWords(each)}, due ${spoken(promised)}`);
  }
  if (run.goings.length === 0) run.stage = 'away';
}

const goingWords = ({ kind, part, supplier }: Omit<Away, 'promised' | 'comesOn'>): string =>
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

async function awaitOne(world: World, run: JobRun, away: Away, day: string): Promise<void> {
  const { dice, telling } = world;
  const { part, supplier, kind } = away;
  if (away.comesOn <= day) {
    note(world, run, { what: 'back', part, supplier: supplier.name, refused: away.isRefusedFirst });
    if (away.isRefusedFirst) {
      away.isRefusedFirst = false;
      away.promised = workday(day, 8);
      away.comesOn = workday(away.promised, dice.whole(-1, 4));
      await on(world, run, `${away.part} back from ${away.supplier.name} but it is poor work, refused it`);
      note(world, run, { what: 'out', part, supplier: supplier.name, kind, promised: away.promised });
      await on(
        world,
        run,
        `sent the ${away.part} back to ${away.supplier.name}, due ${spoken(away.promised)}`,
      );
      return;
    }
    run.away.splice(run.away.indexOf(away), 1);
    await on(world, run, `${away.part} back from ${away.supplier.name}, lovely job`);
    return;
  }
  const { chat } = supplier;
  if (chat === null || away.promised >= day || !dice.chance(0.4)) return;
  const has = world.jobs.flatMap((each) => each.away.filter(({ supplier }) => supplier === away.supplier));
  if (has.length > 1) return;
  away.promised = workday(day, dice.whole(3, 8));
  world.answers.push({
    ...{ who: away.supplier.name, promised: away.promised, part: away.part },
    at: world.stage.driver.now() / 1000,
  });
  note(world, run, { what: 'new-date', part, supplier: supplier.name, promised: away.promised });
  await telling.say(chat, `Sorry, running late: it will be ${spoken(away.promised)} now`);
}

async function ride(world: World, run: JobRun): Promise<void> {
  note(world, run, { what: 'checked' });
  await on(world, run, 'checks 1 to 27 done');
  note(world, run, { what: 'ridden', passed: true });
  await on(world, run, 'road tested, all good');
  await passGates(world);
  run.stage = 'ridden';
}

/** Every gate on offer is passed, and every notice shown to a mechanic let go. */
export async function passGates({
  telling,
  mechanics,
  notes,
  passes,
  released,
  stage,
}: World): Promise<void> {
  for (const mechanic of mechanics) {
    for (let pressed = 0; pressed < 12; pressed += 1) {
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

/** A date so many weekdays on, or back. */
function workday(from: string, days: number): string {
  let at = DateTime.fromISO(from);
  for (let left = Math.abs(days); left > 0;) {
    at = at.plus({ days: Math.sign(days) });
    if (at.weekday <= 5) left -= 1;
  }
  return at.toISODate() ?? from;
}

const spoken = (date: string): string => DateTime.fromISO(date).toFormat('d MMMM');
