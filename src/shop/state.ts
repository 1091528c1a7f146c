import type { Process } from '../trade/terms.js';
import type { Role, ShopEvent } from './events.js';
import type { CalendarSettings, Policy } from './policy.js';
import { policySchema } from './policy.js';

export type Person = {
  id: string;
  roles: Role[];
  /** What a supplier does, and the trades they are called by. */
  processes: Process[];
  trades: string[];
  calendar: CalendarSettings | null;
  forgotten: boolean;
};

export type JobEntry = { id: string; title: string; owner: string | null; open: boolean };

export type Invitation = {
  id: string;
  person: string;
  role: Role;
  expiresAt: number;
  status: 'open' | 'taken' | 'confirmed' | 'turned-away';
  guest: string | null;
};

export type ShopState = {
  people: Readonly<Record<string, Person>>;
  jobs: readonly JobEntry[];
  invitations: Readonly<Record<string, Invitation>>;
  /** Policies set in chat, over those of the shop's file. */
  overrides: readonly { path: string[]; value: unknown }[];
  words: readonly { said: string; part: string }[];
};

export const NEW_SHOP: ShopState = { people: {}, jobs: [], invitations: {}, overrides: [], words: [] };

export type RecordedShopEvent = ShopEvent & { at: number };

/** The shop's state after one more event. */
export function evolveShop(state: ShopState, event: RecordedShopEvent): ShopState {
  switch (event.type) {
    case 'person-added':
      return addRole(state, event.data.person, event.data.role);
    case 'supplier-described':
      return withPerson(state, event.data.supplier, ({ processes, trades }) => ({
        processes: [...new Set([...processes, ...event.data.processes])],
        trades: [...new Set([...trades, ...event.data.trades])],
      }));
    case 'job-registered': {
      const { job, title, owner } = event.data;
      return { ...state, jobs: [...state.jobs, { id: job, title, owner, open: true }] };
    }
    case 'job-owner-named':
      return withJob(state, event.data.job, { owner: event.data.owner });
    case 'job-closed':
      return withJob(state, event.data.job, { open: false });
    case 'job-reopened':
      return withJob(state, event.data.job, { open: true });
    case 'invitation-made':
      return withInvitation(state, {
        id: event.data.invitation,
        person: event.data.person,
        role: event.data.role,
        expiresAt: event.data.expiresAt,
        status: 'open',
        guest: null,
      });
    case 'invitation-taken':
      return settle(state, event.data.invitation, { status: 'taken', guest: event.data.guest });
    case 'guest-confirmed':
      return settle(state, event.data.invitation, { status: 'confirmed' });
    case 'guest-turned-away':
      return settle(state, event.data.invitation, { status: 'turned-away' });
    case 'person-unlinked':
      return state;
    case 'person-forgotten':
      return withPerson(state, event.data.person, () => ({ forgotten: true }));
    case 'policy-set':
      return { ...state, overrides: overridden(state.overrides, event.data.path, event.data.value) };
    case 'calendar-set':
      return withPerson(state, event.data.of, () => ({ calendar: event.data.calendar }));
    case 'word-learnt':
      return { ...state, words: [...state.words.filter(({ said }) => said !== event.data.said), event.data] };
    case 'word-unlearnt':
      return { ...state, words: state.words.filter(({ said }) => said !== event.data.said) };
  }
}

/** What is set again takes the place of what was set before. */
function overridden(before: ShopState['overrides'], path: string[], value: unknown): ShopState['overrides'] {
  const name = path.join('.');
  return [...before.filter((each) => each.path.join('.') !== name), { path, value }];
}

function addRole(state: ShopState, id: string, role: Role): ShopState {
  const known = state.people[id];
  const person: Person = known ?? {
    id,
    roles: [],
    processes: [],
    trades: [],
    calendar: null,
    forgotten: false,
  };
  const roles = [...new Set([...person.roles, role])];
  return { ...state, people: { ...state.people, [id]: { ...person, roles } } };
}

function withPerson(state: ShopState, id: string, change: (person: Person) => Partial<Person>): ShopState {
  const person = state.people[id];
  if (!person) return state;
  return { ...state, people: { ...state.people, [id]: { ...person, ...change(person) } } };
}

function withJob(state: ShopState, id: string, change: Partial<JobEntry>): ShopState {
  return { ...state, jobs: state.jobs.map((job) => (job.id === id ? { ...job, ...change } : job)) };
}

function withInvitation(state: ShopState, invitation: Invitation): ShopState {
  return { ...state, invitations: { ...state.invitations, [invitation.id]: invitation } };
}

function settle(state: ShopState, id: string, change: Partial<Invitation>): ShopState {
  const invitation = state.invitations[id];
  return invitation ? withInvitation(state, { ...invitation, ...change }) : state;
}

/** Policies reckoned before, by the list of what was set in chat, for each policy of a file. */
const reckoned = new WeakMap<Policy, WeakMap<ShopState['overrides'], Policy>>();

/** The policy in force: the shop's file, with what was set in chat over it. A setting that no longer fits is left out. */
export function policyOf({ overrides }: ShopState, fromFile: Policy): Policy {
  const known = reckoned.get(fromFile) ?? new WeakMap<ShopState['overrides'], Policy>();
  reckoned.set(fromFile, known);
  const policy = known.get(overrides) ?? withOverrides(overrides, fromFile);
  known.set(overrides, policy);
  return policy;
}

function withOverrides(overrides: ShopState['overrides'], fromFile: Policy): Policy {
  return overrides.reduce((policy, { path, value }) => {
    const parsed = policyWith(policy, path, value);
    return parsed.success ? parsed.data : policy;
  }, fromFile);
}

/** A policy with one setting changed, if it makes sense with it. */
export function policyWith(policy: Policy, path: readonly string[], value: unknown) {
  return policySchema.safeParse(setAt(policy, path, value));
}

function setAt(target: unknown, [head, ...rest]: readonly string[], value: unknown): unknown {
  if (head === undefined) return value;
  const object = typeof target === 'object' && target !== null ? (target as Record<string, unknown>) : {};
  return { ...object, [head]: setAt(object[head], rest, value) };
}

export function peopleWith(state: ShopState, role: Role): Person[] {
  return Object.values(state.people).filter((person) => person.roles.includes(role) && !person.forgotten);
}
