import type { Matter } from '../contact/events.js';
import type { MessageOut } from '../contact/state.js';
import { blockersOf } from '../job/blockers.js';
import { answerStops, ladderId } from '../job/due/lines.js';
import { onOffer } from '../job/gates.js';
import type { JobRules } from '../job/needs.js';
import type { JobState } from '../job/state.js';
import { isOut } from '../job/state.js';
import type { WorkingCalendar } from '../plan/calendar.js';
import type { Gate } from '../trade/terms.js';
import { GATES } from '../trade/terms.js';
import type { Answer } from '../wording/answer.js';
import { backUpFailedText } from '../wording/health.js';
import { nudgeText } from '../wording/nudge.js';
import { noticeText, yesAskedText } from '../wording/owner.js';
import { passButton } from '../wording/passing.js';
import type { JobPlan } from '../wording/plan.js';
import { delayCostOf } from '../wording/plan.js';
import { roundUpText } from '../wording/round-up.js';
import { supplierDayText } from '../wording/supplier.js';
import { guestText, releaseText, toldText, troubleText, welcomeText } from '../wording/told.js';
import { calendarOf, todayOf } from './calendars.js';
import { plansOf } from './planning.js';
import { findRoundUp } from './round-up.js';
import { speakerFor } from './speaker.js';
import type { JobStanding } from './store.js';
import type { Workplace } from './workplace.js';

/** Those matters of a message that still hold; 'settled' when the message has nothing left to say. */
export async function settleMatters(
  place: Workplace,
  contact: string,
  out: MessageOut,
  now: number,
): Promise<Matter[] | 'settled'> {
  if (out.kind === 'round-up') return (await findRoundUp(place, now)).isEmpty ? 'settled' : out.about;
  if (out.about.length === 0) return out.about;
  const { state: shop, policy } = await place.store.shop();
  const calendar = calendarOf(contact, shop, policy);
  const held: Matter[] = [];
  for (const matter of out.about) {
    const its = matter.job === null ? null : (await place.store.job(matter.job)).state;
    if (its === null || (isTheirs(out, matter, its, contact) && holds(out, matter, its, calendar)))
      held.push(matter);
  }
  return held.length > 0 ? held : 'settled';
}

/** A machine or a line may have passed to somebody else while a message about it waited to go. */
function isTheirs({ kind }: MessageOut, { line }: Matter, state: JobState, contact: string): boolean {
  if (kind === 'notice' || kind === 'yes-asked' || kind === 'welcome') return state.owner === contact;
  return kind !== 'supplier-day' || line === null || state.lines[line]?.supplier === contact;
}

function holds({ kind }: MessageOut, matter: Matter, state: JobState, calendar: WorkingCalendar): boolean {
  switch (kind) {
    case 'supplier-day':
      return stillToAsk(matter, state, calendar);
    case 'notice':
    case 'release-asked':
      return state.notices.some((notice) => notice.id === matter.step && notice.status !== 'dropped');
    case 'yes-asked':
      return Object.values(state.items).some((item) => item.agreement.status === 'asked');
    case 'nudge':
      return wantedOf(matter, state) !== null;
    case 'round-up':
    case 'told':
    case 'guest-asked':
    case 'welcome':
    case 'trouble':
      return true;
  }
}

/** A line is asked about while it is out, on the same promise, and not yet answered. */
function stillToAsk(matter: Matter, state: JobState, calendar: WorkingCalendar): boolean {
  const line = matter.line === null ? undefined : state.lines[matter.line];
  const step = LADDER.find((each) => each === matter.step);
  if (line === undefined || step === undefined || matter.job === null) return false;
  return isOut(line) && ladderId(matter.job, line, step) === matter.due && !answerStops(line, step, calendar);
}

const LADDER = ['check', 'chase', 'chase-again'] as const;

/** The gate a nudge is about ('job' for the whole), with the day it is wanted by, if it still is. */
function wantedOf(matter: Matter, state: JobState): { gate: Gate | null; date: string; step: string } | null {
  const [first = '', second] = (matter.step ?? '').split(':');
  const gate = GATES.find((each) => each === first) ?? null;
  const date = gate === null ? state.wantedBy.job : (state.wantedBy.gates[gate] ?? null);
  if (date === null || (gate !== null && state.gates[gate].passed) || state.status !== 'open') return null;
  return { gate, date, step: second ?? first };
}

/** The words of a message, from the record as it stands. */
export async function wordMessage(
  place: Workplace,
  contact: string,
  out: MessageOut,
  now: number,
): Promise<Answer> {
  const [{ policy }, people, { texts }] = await Promise.all([
    place.store.shop(),
    place.deps.record.people.all(),
    place.store.contact(contact),
  ]);
  const jobs = new Map<string, JobStanding>();
  for (const { job } of out.about) if (job !== null) jobs.set(job, await place.store.job(job));
  const found = out.kind === 'round-up' ? await findRoundUp(place, now) : null;
  for (const standing of found?.standings ?? []) jobs.set(standing.id, standing);
  const speaker = speakerFor(
    todayOf(policy, now),
    policy,
    people,
    texts,
    ...[...jobs.values()].map((job) => job.texts),
  );
  const [first] = out.about;
  const job = first?.job == null ? undefined : jobs.get(first.job);
  const words = out.text === null ? '' : speaker.said(out.text);
  const rules = { ownerYesFrom: policy.owner.yesFrom };
  switch (out.kind) {
    case 'supplier-day':
      return supplierDayText(
        mostDelayingFirst(out.about, await plansOf(place, [...jobs.values()], now)),
        jobs,
        policy.name,
        speaker,
      );
    case 'round-up':
      if (found === null) throw new Error('a round-up is reckoned before it is worded');
      return roundUpText(found, jobs, await plansOf(place, found.standings, now), speaker);
    case 'notice':
      return noticeText(needed(job), first?.step ?? '', rules, speaker);
    case 'release-asked':
      return releaseText(needed(job), first?.step ?? '', rules, speaker);
    case 'yes-asked':
      return yesAskedText(needed(job), speaker);
    case 'nudge': {
      const wanted = first ? wantedOf(first, needed(job).state) : null;
      const gates =
        wanted?.gate == null ? GATES.filter((gate) => !needed(job).state.gates[gate].passed) : [wanted.gate];
      const blockers = gates.slice(0, 1).flatMap((gate) => blockersOf(needed(job).state, gate, rules));
      return nudgeText(needed(job), wanted, blockers, speaker);
    }
    case 'told':
      return withGatesOpened(toldText(out.about, jobs, words, speaker), first, job, rules);
    case 'guest-asked':
      return guestText(first?.step ?? '', first?.person ?? '', words, speaker);
    case 'welcome':
      return welcomeText(first?.step ?? '', [...jobs.values()], policy.name, speaker);
    case 'trouble':
      return first?.step === 'back-up'
        ? backUpFailedText(words)
        : troubleText(first?.person ?? null, words, speaker);
  }
}

/** What delays a hand-over most is asked after first. */
function mostDelayingFirst(about: readonly Matter[], plans: ReadonlyMap<string, JobPlan>): Matter[] {
  const cost = ({ job, line }: Matter): number =>
    job === null || line === null ? 0 : Math.round(10 * delayCostOf(plans.get(job), line));
  return [...about].sort((a, b) => cost(b) - cost(a));
}

/** An owner's answer may have left nothing in the way of a gate: it can be passed under the very message that tells of it. */
function withGatesOpened(
  answer: Answer,
  matter: Matter | undefined,
  job: JobStanding | undefined,
  rules: JobRules,
): Answer {
  const isAnswer = matter?.step === 'answered' || matter?.step?.startsWith('tapped-') === true;
  if (!job || !isAnswer) return answer;
  const gates = onOffer(job.state, rules).filter((gate) => gate !== 'stripped');
  return { ...answer, buttons: [...answer.buttons, ...gates.map((gate) => [passButton(job.id, gate)])] };
}

function needed(job: JobStanding | undefined): JobStanding {
  if (!job) throw new Error('a message about a job names it');
  return job;
}
