import { DateTime } from 'luxon';
import { addWorkingDays, dateAt, startOfWork } from '../../plan/calendar.js';
import type { Policy } from '../../shop/policy.js';
import type { JobState } from '../state.js';
import type { Due, DueContext } from './due.js';

/** What the owner should be told: notices let go, answers asked for, and, after a silence, that nothing is forgotten. */
export function ownerDues(state: JobState, context: DueContext): Due[] {
  const { owner } = state;
  if (owner === null || !context.isLinked(owner)) return [];
  return [
    ...noticeDues(state, owner, context),
    ...askedDues(state, owner, context),
    ...silenceDues(state, owner, context),
  ].filter((due) => context.spokenOf(due.id) === null);
}

/** Notices that go by themselves wait so long after the last one, so that gates passed in a row are told as one, and a slip can be undone. */
const GATHER_MS = 3_600_000;

function noticeDues(state: JobState, owner: string, { job, policy }: DueContext): Due[] {
  const drafted = state.notices.filter(({ status }) => status === 'drafted');
  const gathered = Math.max(0, ...drafted.map(({ draftedAt }) => draftedAt)) + GATHER_MS;
  return state.notices
    .filter(
      ({ status }) => status === 'released' || (status === 'drafted' && policy.owner.noticesGoByThemselves),
    )
    .map(({ id, status, draftedAt, releasedAt }) => ({
      id: `${job}~${id}`,
      at: nextOwnerHour(policy, status === 'released' ? (releasedAt ?? draftedAt) : gathered),
      kind: 'notice',
      owner,
      notice: id,
    }));
}

function askedDues(state: JobState, owner: string, { job, policy }: DueContext): Due[] {
  const asked = Object.values(state.items).flatMap((item) =>
    item.agreement.status === 'asked' ? [item.agreement.at] : [],
  );
  return [...new Set(asked)].map((at) => ({
    id: `${job}~asked~${at}`,
    at: nextOwnerHour(policy, at),
    kind: 'yes-asked',
    owner,
  }));
}

function silenceDues(state: JobState, owner: string, context: DueContext): Due[] {
  if (state.status !== 'open' || state.notices.some((notice) => notice.status === 'drafted')) return [];
  const { shopCalendar: calendar, policy, job } = context;
  const heardAt = Math.max(
    context.ownerHeardAt(owner) ?? 0,
    state.openedAt,
    state.notices.at(-1)?.draftedAt ?? 0,
  );
  const on = addWorkingDays(calendar, dateAt(calendar, heardAt), policy.owner.noticeAfterSilence);
  return [
    {
      id: `${job}~silence~${heardAt}`,
      at: nextOwnerHour(policy, startOfWork(calendar, on)),
      kind: 'silence',
      owner,
    },
  ];
}

/** A quiet week has seven days, and each may hold one quiet spell. */
const TRIES = 16;

/**
 * The same instant if owners may be written to then, else when they next may be, ms. Quiet hours that start later than
 * they end run over midnight; quiet days are quiet all day.
 */
export function nextOwnerHour(policy: Policy, at: number): number {
  const { from, to, days } = policy.owner.quiet;
  let next: DateTime = DateTime.fromMillis(at, { zone: policy.zone });
  for (let tried = 0; tried < TRIES; tried += 1) {
    const clock = next.toFormat('HH:mm');
    const isQuiet = from <= to ? from <= clock && clock < to : from <= clock || clock < to;
    if (days.includes(next.weekday)) next = next.plus({ days: 1 }).startOf('day');
    else if (isQuiet) next = clockOn(clock < to ? next : next.plus({ days: 1 }), to);
    else break;
  }
  return next.toMillis();
}

function clockOn(day: DateTime, clock: string): DateTime {
  const [hour, minute] = clock.split(':').map(Number);
  return day.set({ hour: hour ?? 0, minute: minute ?? 0, second: 0, millisecond: 0 });
}
