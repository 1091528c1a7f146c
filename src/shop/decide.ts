import type { Process } from '../trade/terms.js';
import type { Role, ShopEvent } from './events.js';
import { shopEvent } from './events.js';
import type { CalendarSettings, Policy } from './policy.js';
import { calendarSchema } from './policy.js';
import type { ShopState } from './state.js';
import { policyOf, policyWith } from './state.js';

export type ShopCommand =
  | { type: 'add-person'; person: string; role: Role; processes: Process[]; trades: string[] }
  | { type: 'register-job'; job: string; title: string; owner: string | null }
  | { type: 'name-job-owner'; job: string; owner: string }
  | { type: 'close-job'; job: string }
  | { type: 'reopen-job'; job: string }
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
    case 'register-job':
      return registerJob(state, command);
    case 'name-job-owner':
      return ofJob(
        state,
        command.job,
        shopEvent('job-owner-named', { job: command.job, owner: command.owner }),
      );
    case 'close-job':
      return ofJob(state, command.job, shopEvent('job-closed', { job: command.job }));
    case 'reopen-job':
      return ofJob(state, command.job, shopEvent('job-reopened', { job: command.job }));
    case 'invite': {
      const { invitation, person, role, expiresAt } = command;
      return ofPerson(state, person, shopEvent('invitation-made', { invitation, person, role, expiresAt }));
    }
    case 'take-invitation':
      return takeInvitation(state, command);
    case 'settle-guest':
      return settleGuest(state, command.invitation, command.welcome);
    case 'unlink':
      return ofPerson(state, command.person, shopEvent('person-unlinked', { person: command.person }));
    case 'forget':
      return ofPerson(state, command.person, shopEvent('person-forgotten', { person: command.person }));
    case 'set-policy':
      return setPolicy(state, command);
    case 'set-calendar':
      return setCalendar(state, command);
    case 'learn-word': {
      const { said, part } = command;
      const isWord = said.trim() !== '' && part.trim() !== '';
      return isWord
        ? { events: [shopEvent('word-learnt', { said, part })] }
        : { refusal: { why: 'no-such-word' } };
    }
    case 'unlearn-word':
      if (!state.words.some(({ said }) => said === command.said)) return { refusal: { why: 'no-such-word' } };
      return { events: [shopEvent('word-unlearnt', { said: command.said })] };
  }
}

/** Someone forgotten is nobody that anything can be done with. */
function ofPerson(state: ShopState, id: string, event: ShopEvent): ShopDecision {
  return isKnown(state, id) ? { events: [event] } : { refusal: { why: 'no-such-person' } };
}

const isKnown = ({ people }: ShopState, id: string): boolean => people[id]?.forgotten === false;

function ofJob(state: ShopState, id: string, event: ShopEvent): ShopDecision {
  const isThere = state.jobs.some((job) => job.id === id);
  return isThere ? { events: [event] } : { refusal: { why: 'no-such-job' } };
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

function registerJob(state: ShopState, { job, title, owner }: CommandOf<'register-job'>): ShopDecision {
  const isTaken = state.jobs.some((each) => each.open && each.title.toLowerCase() === title.toLowerCase());
  if (isTaken) return { refusal: { why: 'title-taken', title } };
  return { events: [shopEvent('job-registered', { job, title, owner })] };
}

function takeInvitation(state: ShopState, command: CommandOf<'take-invitation'>): ShopDecision {
  const invitation = state.invitations[command.invitation];
  if (!invitation || !isKnown(state, invitation.person)) return { refusal: { why: 'no-such-invitation' } };
  if (invitation.status !== 'open') return { refusal: { why: 'invitation-used' } };
  if (command.now >= invitation.expiresAt) return { refusal: { why: 'invitation-expired' } };
  return { events: [shopEvent('invitation-taken', { invitation: invitation.id, guest: command.guest })] };
}

function settleGuest(state: ShopState, id: string, welcome: boolean): ShopDecision {
  const invitation = state.invitations[id];
  const isWaiting = invitation?.status === 'taken' && isKnown(state, invitation.person);
  if (!isWaiting) return { refusal: { why: 'no-such-invitation' } };
  return { events: [shopEvent(welcome ? 'guest-confirmed' : 'guest-turned-away', { invitation: id })] };
}

/** A setting is taken where there is one of that name and the policy as a whole still makes sense with it. */
function setPolicy(state: ShopState, { path, value, fromFile }: CommandOf<'set-policy'>): ShopDecision {
  const before = policyOf(state, fromFile);
  if (!isSetting(before, path)) return wrong(`there is no rule called ${path.join('.')}`);
  const after = policyWith(before, path, value);
  return after.success
    ? { events: [shopEvent('policy-set', { path, value })] }
    : wrong(after.error.issues[0]?.message ?? '');
}

function setCalendar(state: ShopState, { of, calendar }: CommandOf<'set-calendar'>): ShopDecision {
  const checked = calendarSchema.safeParse(calendar);
  if (!checked.success) return wrong(checked.error.issues[0]?.message ?? '');
  return ofPerson(state, of, shopEvent('calendar-set', { of, calendar }));
}

const wrong = (problem: string): ShopDecision => ({ refusal: { why: 'policy-wrong', problem } });

/** Every setting has a value, so that a path that leads to none is mistyped. */
function isSetting(policy: unknown, path: readonly string[]): boolean {
  let at: unknown = policy;
  for (const name of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, name)) return false;
    at = (at as Record<string, unknown>)[name];
  }
  return path.length > 0;
}
