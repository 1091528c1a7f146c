import type { JobCommand } from '../commands.js';
import { event } from '../events.js';
import type { JobState } from '../state.js';
import type { Decision } from './draft.js';
import { refuse } from './draft.js';

type CommandOf<T extends JobCommand['type']> = Extract<JobCommand, { type: T }>;

/** Asks the owner about the items given; those already asked or settled are left alone. */
export function askYes(state: JobState, command: CommandOf<'ask-yes'>): Decision {
  if (state.owner === null) return refuse({ why: 'no-owner' });
  const unknown = command.items.find((number) => !state.items[number]);
  if (unknown !== undefined) return refuse({ why: 'no-such-item', item: unknown });
  const items = command.items.filter((number) => state.items[number]?.agreement.status !== 'asked');
  return { events: items.length > 0 ? [event('yes-asked', { asking: nextAsking(state), items })] : [] };
}

function nextAsking(state: JobState): string {
  return `asking-${state.version + 1}`;
}

/** The owner's answer, for the items named or for all that wait for one. */
export function answer(state: JobState, command: CommandOf<'answer'>): Decision {
  const { outcome, text } = command;
  const waiting = Object.values(state.items)
    .filter((item) => item.agreement.status === 'asked' || item.agreement.status === 'talk')
    .map((item) => item.number);
  const undecided = Object.values(state.items)
    .filter((item) => item.agreement.status === 'not-asked' && item.cost !== null && item.remedy !== null)
    .map((item) => item.number);
  const named = command.items.filter((number) => state.items[number]);
  const [unknown] = command.items.filter((number) => !state.items[number]);
  if (unknown !== undefined && named.length === 0) return refuse({ why: 'no-such-item', item: unknown });
  const items = named.length > 0 ? named : waiting.length > 0 ? waiting : undecided;
  return { events: [event('owner-answered', { items, outcome, text })] };
}

export function settleNotice(state: JobState, command: CommandOf<'settle-notice'>): Decision {
  const notice = state.notices.find((each) => each.id === command.notice);
  if (!notice) return refuse({ why: 'no-such-notice' });
  if (notice.status !== 'drafted') return { events: [] };
  return { events: [event(command.release ? 'notice-released' : 'notice-dropped', { notice: notice.id })] };
}

export function draftNotice(state: JobState, command: CommandOf<'draft-notice'>): Decision {
  if (state.owner === null) return refuse({ why: 'no-owner' });
  const { about, gate } = command;
  return { events: [event('notice-drafted', { notice: nextNotice(state), about, gate })] };
}

export function nextNotice(state: JobState): string {
  return `notice-${state.version + 1}`;
}
