import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import type { Stage } from '../demo/stage.js';
import type { SupplierRole } from './cast.js';
import type { Released } from './invariants/expected-owners.js';
import type { Answer } from './invariants/messages.js';
import type { JobRun } from './job-run.js';
import type { Act } from './journal.js';
import type { Ledger } from './ledger.js';
import type { Dice } from './names.js';
import type { Note, Pass } from './notes.js';
import type { Telling } from './telling.js';

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
  /** An invented name that nobody has yet. */
  newName: () => string;
  /** New dates that suppliers gave in the chat. */
  answers: Answer[];
  /** All that happened, in its order. */
  notes: Note[];
  /** Buttons pressed to pass a gate. */
  passes: Pass[];
  /** Notices let go. */
  released: Released[];
  ledger: Ledger;
};

type Happened = Note extends infer Each ? (Each extends Note ? Omit<Each, 'at' | 'job'> : never) : never;

/** Notes what happened to a machine, before anybody says so. */
export const note = ({ notes, stage }: World, { title: job }: JobRun, happened: Happened): void => {
  notes.push({ at: stage.driver.now(), job, ...happened });
};

/** Whether the shop knew whoever did it: of others it keeps nothing. */
export const isKnown = ({ ledger }: World, { chat, at }: Pick<Act, 'chat' | 'at'>): boolean =>
  ledger.outsiders.every(({ chat: their, from }) => their.user.id !== chat || at < from * 1000);

/** Something is to be seen to at the bench, where nothing is bought or sent. */
export function noteWork(world: World, run: JobRun, part: string): void {
  note(world, run, { what: 'found', part, wants: 'done', cost: 0 });
  run.works.push(part);
}

/** Something is said of a machine by one of the mechanics. */
export async function on(world: World, run: JobRun, words: string): Promise<void> {
  run.said.push(words);
  await world.telling.say(world.dice.pick(world.mechanics), `on the ${run.title}: ${words}`);
}

/** The mechanic who sees to people and to what comes in. */
export function firstMechanic({ mechanics }: World): Person {
  const [first] = mechanics;
  if (!first) throw new Error('a shop has a mechanic');
  return first;
}
