import type { Contact, SupplierRole } from './cast.js';
import { surname } from './cast.js';
import type { JobRun } from './job-run.js';
import { countOne } from './ledger.js';
import type { World } from './world.js';
import { firstMechanic, on } from './world.js';

const A_MINUTE_MS = 60_000;

/** Somebody is spoken of for the last time, and wrote a last word; they are forgotten on the next day. */
type Leaving = { contact: Contact; number: string; word: string };

/** From the day given on, one owner and one supplier, once each has nothing in the shop any more, are forgotten. */
export function makeForgetting(world: World, from: string): (day: string) => Promise<void> {
  let leaving: Leaving | null = null;
  const left = { owner: false, supplier: false };
  return async (day) => {
    if (day < from) return;
    if (leaving !== null) {
      await forget(world, leaving);
      leaving = null;
      return;
    }
    const owner = left.owner ? undefined : world.jobs.find(isOwnerDone);
    const supplier =
      left.supplier || owner ? undefined : world.suppliers.find((each) => isSupplierDone(world, each));
    if (owner) leaving = await lastWord(world, owner.owner, '01632 960555', owner);
    else if (supplier) leaving = await lastWord(world, supplier, supplier.number, someJobOf(world, supplier));
    left.owner ||= owner !== undefined;
    left.supplier ||= supplier !== undefined;
  };
}

const isOwnerDone = ({ owner, stage }: JobRun): boolean => stage === 'gone' && owner.chat !== null;

/** One who has been dealt with, has nothing here, and is to have nothing. */
const isSupplierDone = ({ jobs }: World, supplier: SupplierRole): boolean =>
  supplier.chat !== null &&
  jobs.some(({ dealtWith }) => dealtWith.has(supplier)) &&
  jobs.every(({ away, goings }) => [...away, ...goings].every((each) => each.supplier !== supplier));

const someJobOf = ({ jobs }: World, supplier: SupplierRole): JobRun | undefined =>
  jobs.find(({ dealtWith }) => dealtWith.has(supplier));

/** Their number, the half of their name and a word of their own come into the record in every way there is. */
async function lastWord(
  world: World,
  contact: Contact,
  number: string,
  run: JobRun | undefined,
): Promise<Leaving> {
  const word = world.newName();
  const isOwner = run?.owner === contact;
  if (isOwner) await world.telling.say(firstMechanic(world), `owner ${contact.name}, ${number}`);
  if (run) await on(world, run, `${surname(contact)} rang, to be rung back on ${number}`);
  if (contact.chat)
    await world.telling.say(contact.chat, `My cousin ${word} has one just like it, I told you of ${word}`);
  return { contact, number, word };
}

async function forget(world: World, { contact, number, word }: Leaving): Promise<void> {
  const { telling, ledger, stage } = world;
  const mechanic = firstMechanic(world);
  const { chat, name } = contact;
  await telling.say(mechanic, `forget ${name}`);
  const isPressed = await telling.press(mechanic, { do: 'forget' });
  const answer = mechanic.last()?.text ?? '';
  if (!isPressed || !answer.includes(`${name} is forgotten`)) {
    ledger.breaches.push(`${name} could not be forgotten: ${answer.replaceAll('\n', ' / ')}`);
    return;
  }
  countOne(ledger, 'people forgotten');
  contact.isForgotten = true;
  contact.chat = null;
  const at = stage.driver.now() / 1000;
  ledger.forgotten.push({ traces: [surname(contact), number, word], chat: chat?.chatId ?? null, at });
  if (chat === null) return;
  ledger.outsiders.push({ chat, from: at });
  // Chats tell time in seconds: the answer to this must not fall on that of the forgetting, whose own answer may name them.
  await stage.driver.moveTo(stage.driver.now() + A_MINUTE_MS);
  await telling.say(chat, `It is ${name}, have you news of ${word}?`);
}
