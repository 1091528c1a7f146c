import type { ContactState } from '../contact/state.js';
import type { DueContext } from '../job/due.js';
import type { JobState } from '../job/state.js';
import type { Person } from '../record/types.js';
import type { Policy } from '../shop/policy.js';
import type { ShopState } from '../shop/state.js';
import { peopleWith } from '../shop/state.js';
import { calendarOf, shopCalendar } from './calendars.js';

type Sources = {
  job: string;
  state: JobState;
  shop: ShopState;
  policy: Policy;
  people: readonly Person[];
  contact: (person: string) => Promise<ContactState>;
};

/** Gathers what reckoning a job's dues needs to know of the people on it. */
export async function dueContext({
  job,
  state,
  shop,
  policy,
  people,
  contact,
}: Sources): Promise<DueContext> {
  const suppliers = Object.values(state.lines).flatMap(({ supplier }) =>
    supplier === null ? [] : [supplier],
  );
  const mechanics = peopleWith(shop, 'mechanic').map(({ id }) => id);
  const concerned = [
    ...new Set([...suppliers, ...mechanics, ...(state.owner === null ? [] : [state.owner])]),
  ];
  const contacts = new Map(await Promise.all(concerned.map(async (id) => [id, await contact(id)] as const)));
  const linked = new Set(people.filter(({ chatId }) => chatId !== undefined).map(({ id }) => id));
  return {
    job,
    policy,
    shopCalendar: shopCalendar(policy),
    calendarOf: (person) => calendarOf(person, shop, policy),
    isLinked: (person) => linked.has(person) && shop.people[person]?.forgotten !== true,
    spokenOf: (due) => latest([...contacts.values()].map(({ spokenOf }) => spokenOf[due] ?? null)),
    ownerHeardAt: (owner) => heardAt(contacts.get(owner)),
  };
}

function heardAt(contact: ContactState | undefined): number | null {
  if (!contact) return null;
  const sent = Object.values(contact.messages).map(({ intendedAt }) => intendedAt);
  return latest([...sent, contact.received.at(-1)?.at ?? null]);
}

function latest(times: readonly (number | null)[]): number | null {
  const known = times.filter((time) => time !== null);
  return known.length > 0 ? Math.max(...known) : null;
}
