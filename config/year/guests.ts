import type { Person } from '../../bot/rehearsal/person.js';
import type { JobRun } from './job-run.js';
import { countOne } from './ledger.js';
import type { World } from './world.js';
import { firstMechanic } from './world.js';

const A_DAY = 0.03;

/** On some days somebody writes whom the shop does not know. */
export async function perhapsStranger(world: World): Promise<void> {
  if (world.dice.chance(A_DAY)) await strangerWrites(world);
}

async function strangerWrites(world: World): Promise<void> {
  countOne(world.ledger, 'strangers who wrote');
  const stranger = outsider(world, 'Perrin');
  await world.telling.say(stranger, 'Hello, how much to restore my moped?');
  await world.telling.say(stranger, 'When will it be ready?');
}

/** The wrong one opens an owner's link and is turned away; then the right one comes, and somebody tries that link again. */
export async function wrongGuest(world: World, run: JobRun): Promise<void> {
  const { telling, ledger } = world;
  const mechanic = firstMechanic(world);
  const { name } = run.owner;
  const link = await telling.link(mechanic, name);
  const wrong = outsider(world, 'Bo');
  await telling.open(wrong, link);
  await telling.settleGuest(mechanic, link, false);
  countOne(ledger, 'guests turned away');
  await telling.say(wrong, 'Hello? Is there any news of the motorcycle?');
  await telling.open(wrong, link);
  countOne(ledger, 'invitations replayed');

  const right = await telling.link(mechanic, name);
  run.owner.chat = world.newChat(name);
  await telling.open(run.owner.chat, right);
  await telling.settleGuest(mechanic, right, true);
  await telling.open(outsider(world, 'Ludo'), right);
  await telling.open(wrong, right);
  countOne(ledger, 'invitations replayed');
}

function outsider({ newChat, ledger }: World, name: string): Person {
  const person = newChat(name);
  ledger.outsiders.push({ chat: person, from: 0 });
  return person;
}
