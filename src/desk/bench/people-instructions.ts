import type { Instruction } from '../../hearing/instructions/instruction.js';
import type { Role } from '../../shop/events.js';
import type { ShopState } from '../../shop/state.js';
import type { Answer } from '../../wording/answer.js';
import { whichJobFirst } from '../../wording/bench.js';
import {
  askForget,
  noOwnerYet,
  noSuchPerson,
  personAdded,
  phoneNoted,
  whichPerson,
} from '../../wording/people.js';
import { invite } from '../invitations.js';
import { addPerson, namesake, peopleMeant, peopleNamed } from '../people.js';
import type { Workplace } from '../workplace.js';
import type { Saying } from './carry-out.js';
import { jobNamed } from './understand.js';

type Adding = Extract<Instruction, { kind: 'add-person' }>;

/** Adds a supplier, owner or mechanic, or what is new of one already known. */
export async function addSomebody(place: Workplace, saying: Saying, adding: Adding): Promise<Answer> {
  const { key, at, person: by } = saying;
  const [{ state: shop }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const { name, role, processes, phone } = adding;
  const known = peopleNamed(name, shop, people, role)[0] ?? namesake(name, shop, people);
  const id = known ?? `${role}-${key}`;
  await addPerson(
    place.deps,
    place.store,
    { id, name, role, processes, trades: [], phone },
    { commandId: `${key}-add`, at, by },
  );
  const job = adding.machine === null ? null : jobNamed(shop.jobs, people, adding.machine);
  if (job !== null && role === 'owner') {
    await place.store.toJob(job, { commandId: `${key}-owner`, at, by }, [{ type: 'name-owner', owner: id }]);
    await place.store.toShop(
      { commandId: `${key}-owner`, at, by },
      { type: 'name-job-owner', job, owner: id },
    );
  }
  return personAdded({ id, name, role, isNew: known === null });
}

/** Keeps the telephone number of somebody known, or of the owner of the machine on the bench. */
export async function notePhone(
  place: Workplace,
  job: string | null,
  { name, phone }: Extract<Instruction, { kind: 'note-phone' }>,
): Promise<Answer> {
  if (name === null && job === null) return whichJobFirst((await place.store.shop()).state.jobs);
  const found = name === null ? await ownerOf(place, job ?? '') : await anyoneCalled(place, name);
  const [only, ...more] = found;
  if (!only) return name === null ? noOwnerYet() : noSuchPerson(name);
  if (more.length > 0) return whichPerson(found);
  const known = await place.deps.record.people.get(only.id);
  if (known) await place.deps.record.people.put(only.id, { ...known, phone });
  return phoneNoted(only.name, phone);
}

async function ownerOf(place: Workplace, job: string): Promise<Called[]> {
  const { state } = await place.store.job(job);
  const contact = state.owner === null ? null : await place.deps.record.people.get(state.owner);
  return contact ? [{ id: contact.id, role: 'owner', name: contact.name }] : [];
}

/** Invites whoever goes by the name, in the part they have in the shop. */
export async function inviteByName(place: Workplace, saying: Saying, name: string): Promise<Answer> {
  const found = await anyoneCalled(place, name);
  const [only, ...more] = found;
  if (!only) return noSuchPerson(name);
  if (more.length > 0) return whichPerson(found);
  return invite(place, only.id, only.role, { key: saying.key, by: saying.person, at: saying.at });
}

export async function askToForget(place: Workplace, name: string): Promise<Answer> {
  const found = await anyoneCalled(place, name);
  const [only] = found;
  return only ? askForget(found) : noSuchPerson(name);
}

export type Called = { id: string; role: Role; name: string };

async function anyoneCalled(place: Workplace, name: string): Promise<Called[]> {
  const [{ state: shop }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const roles: Role[] = ['owner', 'supplier', 'mechanic'];
  const ids = new Set(roles.flatMap((role) => peopleMeant(name, shop, people, role)));
  return people
    .filter(({ id }) => ids.has(id))
    .map(({ id, name: called }) => ({ id, name: called, role: firstRole(shop, id) }));
}

function firstRole(shop: ShopState, person: string): Role {
  return shop.people[person]?.roles[0] ?? 'supplier';
}
