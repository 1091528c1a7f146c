import { createHash } from 'node:crypto';
import type { Person as Contact } from '../record/types.js';
import type { Role } from '../shop/events.js';
import type { ShopState } from '../shop/state.js';
import { processesOf } from '../trade/processes.js';
import type { Process } from '../trade/terms.js';
import type { DeskDeps } from './deps.js';
import type { Identity } from './desk.js';
import type { Change, Store } from './store.js';

/** An invitation is known at rest by its hash alone. */
export function invitationOf(secret: string): string {
  return createHash('sha256').update(secret).digest('base64url');
}

export async function who(deps: DeskDeps, store: Store, chatId: number): Promise<Identity> {
  const contact = await deps.record.people.byChat(chatId);
  if (!contact) return { kind: 'stranger' };
  const { state } = await store.shop();
  const person = state.people[contact.id];
  if (!person || person.forgotten || person.roles.length === 0) return { kind: 'stranger' };
  const speaksAs = await partOf(store, contact.id, person.roles);
  return { kind: 'person', person: contact.id, roles: person.roles, name: contact.name, speaksAs };
}

/** Somebody who is both supplier and owner speaks in the part that they were last written to in. */
async function partOf(store: Store, person: string, roles: readonly Role[]): Promise<Role> {
  if (roles.includes('mechanic')) return 'mechanic';
  if (!roles.includes('owner')) return 'supplier';
  if (!roles.includes('supplier')) return 'owner';
  const { state } = await store.contact(person);
  const last = Object.values(state.messages).findLast(({ status }) => status === 'sent');
  return last?.kind === 'supplier-day' ? 'supplier' : 'owner';
}

/** People who could be meant by a name or a trade said at the bench; the likeliest alone where one stands out. */
export function peopleMeant(
  said: string,
  shop: ShopState,
  contacts: readonly Contact[],
  role: Role,
): string[] {
  const named = peopleNamed(said, shop, contacts, role);
  if (named.length > 0) return named;
  const able = contacts.filter(({ id }) => shop.people[id]?.roles.includes(role));
  const wanted = normalise(said);
  const called = able.filter(({ id }) =>
    shop.people[id]?.trades.some((trade) => normalise(trade) === wanted),
  );
  if (called.length > 0) return called.map(({ id }) => id);
  const work = processesOf(said);
  return able
    .filter(({ id }) => shop.people[id]?.processes.some((process) => work.includes(process)))
    .map(({ id }) => id);
}

/** People of a part in the shop who have the name, else those of whose name it is a part. */
export function peopleNamed(
  said: string,
  shop: ShopState,
  contacts: readonly Contact[],
  role: Role,
): string[] {
  const able = contacts.filter(({ id }) => shop.people[id]?.roles.includes(role));
  const wanted = normalise(said);
  const exact = able.filter((contact) => namesOf(contact).includes(wanted));
  if (exact.length > 0) return exact.map(({ id }) => id);
  const words = wanted.split(' ');
  return able
    .filter((contact) =>
      namesOf(contact).some((name) => words.every((word) => name.split(' ').includes(word))),
    )
    .map(({ id }) => id);
}

/** Whoever has just this name, of two words or more, whatever part they have in the shop: one person can be two of these. */
export function namesake(said: string, shop: ShopState, contacts: readonly Contact[]): string | null {
  const wanted = normalise(said);
  const found = contacts.filter(({ id, name }) => shop.people[id] && normalise(name) === wanted);
  const [only, ...more] = wanted.includes(' ') ? found : [];
  return only && more.length === 0 ? only.id : null;
}

const namesOf = ({ name, also }: Contact): string[] => [name, ...(also ?? [])].map(normalise);

/** Lower case, without articles, titles' dots and the possessive: 'The Plater’s' is 'plater'. */
function normalise(name: string): string {
  return name
    .toLowerCase()
    .replace(/[’']s\b/g, '')
    .replace(/[.,’']/g, '')
    .replace(/^(the|my|our)\s+/, '')
    .replace(/\s+/g, ' ')
    .trim();
}

export type NewPerson = {
  id: string;
  name: string;
  role: Role;
  processes: Process[];
  trades: string[];
  phone: string | null;
};

/** Adds someone to the shop's people, or gives a known person another part or more to go by. */
export async function addPerson(
  deps: DeskDeps,
  store: Store,
  person: NewPerson,
  change: Change,
): Promise<void> {
  const known = await deps.record.people.get(person.id);
  const phone = person.phone ?? known?.phone;
  await deps.record.people.put(person.id, {
    ...known,
    id: person.id,
    name: known?.name ?? person.name,
    ...(phone === undefined ? {} : { phone }),
  });
  await store.toShop(change, {
    type: 'add-person',
    person: person.id,
    role: person.role,
    processes: person.processes,
    trades: person.trades,
  });
}
