import type { Process } from '../trade/terms.js';
import type { Role, ShopEvent } from './events.js';
import { shopEvent } from './events.js';
import type { CalendarSettings, Policy } from './policy.js';
import { policySchema } from './policy.js';
import type { ShopState } from './state.js';
import { policyOf } from './state.js';

export type ShopCommand =
  | { type: 'add-person'; person: string; role: Role; processes: Process[]; trades: string[] }
  | { type: 'register-job'; job: string; title: string; owner: string | null }
  | { type: 'name-job-owner'; job: string; owner: string }
  | { type: 'close-job'; job: string }
  | { type: 'invite'; invitation: string; person: string; role: Role; expiresAt: number }
  | { type: 'take-invitation'; invitation: string; guest: string; now: number }
  | { type: 'settle-guest'; invitation: string; welcome: boolean }
  | { type: 'unlink'; person: string }
  | { type: 'forget'; person: string }
  | { type: 'set-policy'; path: string[]; value: unknown; fromFile: Policy }
  | { type: 'set-calendar'; of: string; calendar: CalendarSettings }
  | { type: 'learn-word'; said: string; part: string }
  | { type: 'unlearn-word'; said: string };

export type ShopRefusal =
  | { why: 'no-such-person' }
  | { why: 'title-taken'; title: string }
  | { why: 'no-such-job' }
  | { why: 'no-such-invitation' }
  | { why: 'invitation-expired' }
  | { why: 'invitation-used' }
  | { why: 'policy-wrong'; problem: string }
  | { why: 'no-such-word' };

export type ShopDecision = { events: ShopEvent[] } | { refusal: ShopRefusal };

/** What a command to the shop comes to: events, or why not. */
export function decideShop(state: ShopState, command: ShopCommand): ShopDecision {
  switch (command.type) {
    case 'add-person':
      return { events: addPerson(state, command) };
    case 'register-job': {
      const { job, title, owner } = command;
      const taken = state.jobs.some((each) => each.open && each.title.toLowerCase() === title.toLowerCase());
      if (taken) return { refusal: { why: 'title-taken', title } };
      return { events: [shopEvent('job-registered', { job, title, owner })] };
    }
    case 'name-job-owner':
      if (!state.jobs.some((job) => job.id === command.job)) return { refusal: { why: 'no-such-job' } };
      return { events: [shopEvent('job-owner-named', { job: command.job, owner: command.owner })] };
    case 'close-job':
      return { events: [shopEvent('job-closed', { job: command.job })] };
    case 'invite': {
      const { invitation, person, role, expiresAt } = command;
      if (!state.people[person]) return { refusal: { why: 'no-such-person' } };
      return { events: [shopEvent('invitation-made', { invitation, person, role, expiresAt })] };
    }
    case 'take-invitation':
      return takeInvitation(state, command);
    case 'settle-guest':
      return settleGuest(state, command.invitation, command.welcome);
    case 'unlink':
      if (!state.people[command.person]) return { refusal: { why: 'no-such-person' } };
      return { events: [shopEvent('person-unlinked', { person: command.person })] };
    case 'forget':
      if (!state.people[command.person]) return { refusal: { why: 'no-such-person' } };
      return { events: [shopEvent('person-forgotten', { person: command.person })] };
    case 'set-policy':
      return setPolicy(state, command);
    case 'set-calendar':
      if (!state.people[command.of]) return { refusal: { why: 'no-such-person' } };
      return { events: [shopEvent('calendar-set', { of: command.of, calendar: command.calendar })] };
    case 'learn-word':
      return { events: [shopEvent('word-learnt', { said: command.said, part: command.part })] };
    case 'unlearn-word':
      if (!state.words.some(({ said }) => said === command.said)) return { refusal: { why: 'no-such-word' } };
      return { events: [shopEvent('word-unlearnt', { said: command.said })] };
  }
}

type CommandOf<T extends ShopCommand['type']> = Extract<ShopCommand, { type: T }>;

function addPerson(state: ShopState, command: CommandOf<'add-person'>): ShopEvent[] {
  const { person, role, processes, trades } = command;
  const known = state.people[person];
  const added = known?.roles.includes(role) ? [] : [shopEvent('person-added', { person, role })];
  const news =
    processes.some((p) => !known?.processes.includes(p)) || trades.some((t) => !known?.trades.includes(t));
  return news ? [...added, shopEvent('supplier-described', { supplier: person, processes, trades })] : added;
}

function takeInvitation(state: ShopState, command: CommandOf<'take-invitation'>): ShopDecision {
  const invitation = state.invitations[command.invitation];
  if (!invitation) return { refusal: { why: 'no-such-invitation' } };
  if (invitation.status !== 'open') return { refusal: { why: 'invitation-used' } };
  if (command.now >= invitation.expiresAt) return { refusal: { why: 'invitation-expired' } };
  return { events: [shopEvent('invitation-taken', { invitation: invitation.id, guest: command.guest })] };
}

function settleGuest(state: ShopState, id: string, welcome: boolean): ShopDecision {
  const invitation = state.invitations[id];
  if (invitation?.status !== 'taken') return { refusal: { why: 'no-such-invitation' } };
  return { events: [shopEvent(welcome ? 'guest-confirmed' : 'guest-turned-away', { invitation: id })] };
}

function setPolicy(state: ShopState, { path, value, fromFile }: CommandOf<'set-policy'>): ShopDecision {
  const event = shopEvent('policy-set', { path, value });
  const after = { ...state, overrides: [...state.overrides, { path, value }] };
  const takes = policyOf(after, fromFile) !== policyOf(state, fromFile);
  const check = policySchema.safeParse(nest(path, value));
  if (!check.success)
    return { refusal: { why: 'policy-wrong', problem: check.error.issues[0]?.message ?? '' } };
  return takes ? { events: [event] } : { events: [] };
}

function nest([head, ...rest]: readonly string[], value: unknown): unknown {
  return head === undefined ? value : { [head]: nest(rest, value) };
}
