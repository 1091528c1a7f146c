import { isTradeWord } from '../hearing/tagging/part-index.js';
import { isEveryday } from '../hearing/text/ordinary-words.js';
import type { Person as Contact } from '../record/types.js';
import type { Role } from '../shop/events.js';
import type { Answer } from '../wording/answer.js';
import { invitationAnswer, invitationRefused, invitationTaken, settledGuest } from '../wording/people.js';
import { finishOnce } from './once.js';
import { addPerson, invitationOf } from './people.js';
import { matterOf, tell, tellMechanics } from './tell.js';
import type { Workplace } from './workplace.js';

/** What a mechanic let in by the settings is called until their chat says more. */
const UNNAMED = 'The mechanic';

const LASTS_MS = 7 * 24 * 3_600_000;

/** Makes a one-use link for someone the shop knows; only its hash is kept. The same update again gives the same link. */
export async function invite(
  place: Workplace,
  person: string,
  role: Role,
  when: { key: string; by: string; at: number },
): Promise<Answer> {
  const secret = place.deps.secretOf(`invitation ${when.key} ${person} ${role}`);
  const invitation = invitationOf(secret);
  const change = { commandId: `${when.key}-invite-${invitation}`, at: when.at, by: when.by };
  const made = await place.store.toShop(change, {
    type: 'invite',
    invitation,
    person,
    role,
    expiresAt: when.at + LASTS_MS,
  });
  const name = (await place.deps.record.people.get(person))?.name ?? '';
  return 'refusal' in made
    ? invitationRefused(made.refusal)
    : invitationAnswer(name, place.deps.linkFor(secret));
}

/** Somebody opened the bot by a link. The mechanics are shown who, and say whether it is the one they meant. */
export async function takeInvitation(
  place: Workplace,
  taken: { key: string; chatId: number; name: string; secret: string; at: number },
): Promise<Answer> {
  return finishOnce(place, taken.key, async () => {
    const invitation = invitationOf(taken.secret);
    const guest = `guest-${taken.key}`;
    const change = { commandId: `${taken.key}-taken`, at: taken.at, by: guest };
    const done = await place.store.toShop(change, {
      type: 'take-invitation',
      invitation,
      guest,
      now: taken.at,
    });
    if ('refusal' in done) return invitationRefused(done.refusal);
    await place.deps.record.people.put(guest, { id: guest, name: taken.name, address: String(taken.chatId) });
    const person = done.state.invitations[invitation]?.person ?? null;
    await tellMechanics(place, {
      id: `${taken.key}-guest`,
      kind: 'guest-asked',
      about: [matterOf(null, { person, step: invitation })],
      words: taken.name,
      at: taken.at,
      by: guest,
    });
    return invitationTaken();
  });
}

/**
 * The mechanic's word on who took an invitation: their chat becomes the person's, who goes by the name they have there
 * too ('Dov' of Cobnut Plating), or they are turned away.
 */
export async function settleGuest(
  place: Workplace,
  invitation: string,
  welcome: boolean,
  when: { key: string; by: string; at: number },
): Promise<Answer> {
  return finishOnce(place, when.key, async () => {
    const { people } = place.deps.record;
    const change = { commandId: `${when.key}-settle`, at: when.at, by: when.by };
    const done = await place.store.toShop(change, { type: 'settle-guest', invitation, welcome });
    if ('refusal' in done) return invitationRefused(done.refusal);
    const settled = done.state.invitations[invitation];
    if (!settled) return invitationRefused({ why: 'no-such-invitation' });
    const guest = settled.guest === null ? undefined : await people.get(settled.guest);
    const person = await people.get(settled.person);
    if (welcome && person && guest) {
      const others = (await people.all()).filter(({ id }) => id !== person.id && id !== guest.id);
      const also = isOwnName(guest.name, others)
        ? [...new Set([...(person.also ?? []), guest.name])]
        : person.also;
      await people.put(person.id, { ...person, chatId: Number(guest.address), ...(also ? { also } : {}) });
    }
    if (welcome) await welcomeThem(place, settled.person, settled.role, when);
    if (guest) await people.forget(guest.id);
    return settledGuest(person?.name ?? '', welcome, settled.role);
  });
}

/** A name in the chat is anybody's choice: it is gone by only where no word of it means something else, or somebody else. */
function isOwnName(name: string, others: readonly Contact[]): boolean {
  const wordsOf = (each: string): string[] => each.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  const borne = new Set(others.flatMap((other) => [other.name, ...(other.also ?? [])]).flatMap(wordsOf));
  const words = wordsOf(name);
  return (
    words.length > 0 && words.every((word) => !isEveryday(word) && !isTradeWord(word) && !borne.has(word))
  );
}

async function welcomeThem(
  place: Workplace,
  person: string,
  role: Role,
  when: { key: string; at: number; by: string },
): Promise<void> {
  const { state: shop } = await place.store.shop();
  const jobs = role === 'owner' ? shop.jobs.filter((job) => job.open && job.owner === person) : [];
  const about = [
    matterOf(null, { person, step: role }),
    ...jobs.map(({ id }) => matterOf(id, { step: role })),
  ];
  await tell(place, {
    id: `${when.key}-welcome`,
    to: person,
    kind: 'welcome',
    about,
    at: when.at,
    by: when.by,
  });
  for (const { id } of shop.jobs) await place.store.reindex(id);
}

/** Mechanics named in the settings are let in from the start. */
export async function letInMechanics(
  place: Workplace,
  chatIds: readonly number[],
  at: number,
): Promise<void> {
  for (const chatId of chatIds) {
    if (await place.deps.record.people.byChat(chatId)) continue;
    const id = `mechanic-${chatIds.indexOf(chatId) + 1}`;
    const change = { commandId: `let-in-${id}`, at, by: 'benchhand' };
    const known = await place.deps.record.people.get(id);
    await addPerson(
      place.deps,
      place.store,
      { id, name: known?.name ?? UNNAMED, role: 'mechanic', processes: [], trades: [], phone: null },
      change,
    );
    const person = await place.deps.record.people.get(id);
    if (person) await place.deps.record.people.put(id, { ...person, chatId });
  }
}

/** Somebody let in by the settings is called as they call themselves in the chat, once they write. */
export async function nameFromChat({ deps }: Workplace, person: string, name: string): Promise<void> {
  const known = (await deps.record.people.all()).find(({ id }) => id === person);
  if (known?.name === UNNAMED) await deps.record.people.put(person, { ...known, name });
}
