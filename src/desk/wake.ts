import { contactEvent } from '../contact/events.js';
import type { Matter } from '../contact/events.js';
import { isWithinHours, isWorkingDay, nextWorkingDay } from '../plan/calendar.js';
import type { Due } from '../job/due.js';
import { due } from '../job/due.js';
import { DateTime } from 'luxon';
import type { Policy } from '../shop/policy.js';
import type { ShopState } from '../shop/state.js';
import { peopleWith } from '../shop/state.js';
import { nextOwnerHour } from '../job/due/owner.js';
import { afterwards } from './bench/tell-job.js';
import { calendarOf, shopCalendar, todayOf } from './calendars.js';
import { dueContext } from './due-context.js';
import { findRoundUp } from './round-up.js';
import { matterOf, tell, tellMechanics } from './tell.js';
import type { Workplace } from './workplace.js';

type JobDue = { job: string; due: Due };

/**
 * Puts into motion all that is due by now: one message a supplier a day with all its lines, notices and
 * questions to owners, nudges and the morning round-up to mechanics. Done twice, it says nothing twice.
 */
export async function wake(place: Workplace, now: number): Promise<number> {
  const streams = (await place.deps.record.due.until(now)).map(({ stream }) => stream);
  const jobs = streams
    .filter((stream) => stream.startsWith('job-'))
    .map((stream) => stream.slice('job-'.length));
  const found = (await Promise.all(jobs.map((job) => duesOf(place, job)))).flat();
  const ripe = latestSteps(found.filter(({ due: each }) => each.at <= now));
  const toldSuppliers = await tellSuppliers(place, ripe, now);
  const toldOwners = await tellNotices(place, ripe, now);
  const toldQuestions = await tellQuestions(place, ripe, now);
  const toldOthers = await breakSilenceAndNudge(place, ripe, now);
  const roundUps = await morningRoundUp(place, now);
  for (const job of jobs) await place.store.reindex(job, now);
  return toldSuppliers + toldOwners + toldQuestions + toldOthers + roundUps;
}

async function duesOf(place: Workplace, job: string): Promise<JobDue[]> {
  const [{ state }, { state: shop, policy }, people] = await Promise.all([
    place.store.job(job),
    place.store.shop(),
    place.deps.record.people.all(),
  ]);
  const contact = async (person: string) => (await place.store.contact(person)).state;
  const context = await dueContext({ job, state, shop, policy, people, contact });
  return due(state, context).map((each) => ({ job, due: each }));
}

/** After a time away only the step that fits the day is said of each matter; an earlier one that was never sent is passed over. */
function latestSteps(ripe: readonly JobDue[]): JobDue[] {
  const latest = new Map<string, JobDue>();
  for (const each of ripe) {
    const { due: its } = each;
    const key =
      its.kind === 'supplier'
        ? `${each.job}~${its.line}`
        : its.kind === 'nudge'
          ? `${each.job}~nudge~${its.gate ?? ''}`
          : its.id;
    latest.set(key, each);
  }
  return [...latest.values()];
}

async function tellSuppliers(place: Workplace, ripe: readonly JobDue[], now: number): Promise<number> {
  const { state: shop, policy } = await place.store.shop();
  const bySupplier = new Map<string, Matter[]>();
  for (const { job, due: its } of ripe) {
    if (its.kind !== 'supplier') continue;
    const matter = matterOf(job, { due: its.id, line: its.line, step: its.step });
    bySupplier.set(its.supplier, [...(bySupplier.get(its.supplier) ?? []), matter]);
  }
  let told = 0;
  for (const [supplier, about] of bySupplier) {
    const calendar = calendarOf(supplier, shop, policy);
    if (!isWithinHours(calendar, now)) continue;
    const day = todayOf(policy, now);
    const telling = {
      id: `day-${supplier}-${day}`,
      to: supplier,
      kind: 'supplier-day' as const,
      about,
      day,
      at: now,
      by: 'benchhand',
    };
    await tell(place, telling, (state) => state.lastDay['supplier-day'] === day);
    told += 1;
  }
  return told;
}

type NoticeDue = JobDue & { due: Extract<Due, { kind: 'notice' }> };

/**
 * Notices of one job that go together are told as one: the earliest tells all that has happened since it was drafted.
 * One that goes by itself is let go in the job too, so that what comes later knows that it was told.
 */
async function tellNotices(place: Workplace, ripe: readonly JobDue[], now: number): Promise<number> {
  const { policy } = await place.store.shop();
  if (nextOwnerHour(policy, now) !== now) return 0;
  const notices = ripe.filter((each): each is NoticeDue => each.due.kind === 'notice');
  const jobs = [...new Set(notices.map(({ job }) => job))];
  for (const job of jobs) {
    const theirs = notices.filter((each) => each.job === job).map((each) => each.due);
    const [first] = theirs;
    if (!first) continue;
    const when = { at: now, by: 'benchhand' };
    await place.store.toJob(
      job,
      { commandId: `${first.id}-let-go`, ...when },
      theirs.map(({ notice }) => ({ type: 'settle-notice', notice, release: true })),
    );
    const about = theirs.map(({ id, notice }) => matterOf(job, { due: id, step: notice }));
    const id = `${first.id}~${todayOf(policy, now)}`;
    await tell(place, { id, to: first.owner, kind: 'notice', about, ...when });
  }
  return jobs.length;
}

type AskedDue = JobDue & { due: Extract<Due, { kind: 'yes-asked' }> };

/** Asked for at one time and another, an owner's word on one machine is asked for once: the message names all that waits. */
async function tellQuestions(place: Workplace, ripe: readonly JobDue[], now: number): Promise<number> {
  const { policy } = await place.store.shop();
  if (nextOwnerHour(policy, now) !== now) return 0;
  const asked = ripe.filter((each): each is AskedDue => each.due.kind === 'yes-asked');
  const jobs = [...new Set(asked.map(({ job }) => job))];
  for (const job of jobs) {
    const theirs = asked.filter((each) => each.job === job).map((each) => each.due);
    const [first] = theirs;
    if (!first) continue;
    // One that was too late yesterday is another message today.
    const id = `${first.id}~${todayOf(policy, now)}`;
    const about = theirs.map((due) => matterOf(job, { due: due.id }));
    await tell(place, { id, to: first.owner, kind: 'yes-asked', about, at: now, by: 'benchhand' });
  }
  return jobs.length;
}

async function breakSilenceAndNudge(place: Workplace, ripe: readonly JobDue[], now: number): Promise<number> {
  let told = 0;
  for (const { job, due: its } of ripe) {
    const when = { at: now, by: 'benchhand' };
    switch (its.kind) {
      case 'supplier':
      case 'notice':
      case 'yes-asked':
        continue;
      case 'silence':
        await draftForSilence(place, job, its.id, when);
        break;
      case 'nudge':
        await tellMechanics(place, {
          id: its.id,
          kind: 'nudge',
          about: [
            matterOf(job, { due: its.id, step: its.gate === null ? its.step : `${its.gate}:${its.step}` }),
          ],
          ...when,
        });
    }
    told += 1;
  }
  return told;
}

async function draftForSilence(
  place: Workplace,
  job: string,
  id: string,
  when: { at: number; by: string },
): Promise<void> {
  const drafted = await place.store.toJob(job, { commandId: id, ...when }, [
    { type: 'draft-notice', about: 'silence', gate: null },
  ]);
  await afterwards(place, drafted, { key: id, ...when });
}

/** One round-up for each mechanic each working morning; a morning with nothing to say passes in silence. */
async function morningRoundUp(place: Workplace, now: number): Promise<number> {
  const { state: shop, policy } = await place.store.shop();
  const calendar = shopCalendar(policy);
  const today = todayOf(policy, now);
  const at = roundUpAt(policy, today);
  const isDue = now >= at && isWorkingDay(calendar, today);
  let told = 0;
  if (isDue) {
    for (const { id } of peopleWith(shop, 'mechanic')) {
      const { state } = await place.store.contact(id);
      if (state.lastDay['round-up'] === today) continue;
      told += await roundUpFor(place, id, today, now);
    }
  }
  await setNextRoundUps(place, shop, policy, now);
  return told;
}

async function roundUpFor(place: Workplace, mechanic: string, today: string, now: number): Promise<number> {
  const id = `round-up-${today}-${mechanic}`;
  const found = await findRoundUp(place, now);
  if (found.isEmpty) {
    const change = { commandId: id, at: now, by: 'benchhand' };
    await place.store.toContact(mechanic, change, () => [
      contactEvent('day-passed', { day: today, kind: 'round-up' }),
    ]);
    return 0;
  }
  await tell(place, { id, to: mechanic, kind: 'round-up', about: [], day: today, at: now, by: 'benchhand' });
  return 1;
}

function roundUpAt(policy: Policy, day: string): number {
  return DateTime.fromISO(`${day}T${policy.mechanic.roundUpAt}`, { zone: policy.zone }).toMillis();
}

async function setNextRoundUps(
  place: Workplace,
  shop: ShopState,
  policy: Policy,
  now: number,
): Promise<void> {
  const today = todayOf(policy, now);
  const calendar = shopCalendar(policy);
  const todays = roundUpAt(policy, today);
  const next =
    now < todays && isWorkingDay(calendar, today)
      ? todays
      : roundUpAt(policy, nextWorkingDay(calendar, today));
  for (const { id } of peopleWith(shop, 'mechanic')) await place.deps.record.due.set(`contact-${id}`, next);
}
