import { contactEvent } from '../contact/events.js';
import type { Matter, MessageKind } from '../contact/events.js';
import type { ContactState, MessageOut } from '../contact/state.js';
import { nextOwnerHour } from '../job/due/owner.js';
import { isWithinHours } from '../plan/calendar.js';
import type { Answer } from '../wording/answer.js';
import { calendarOf } from './calendars.js';
import type { Prepared } from './desk.js';
import { settleMatters, wordMessage } from './message-words.js';
import { matterOf, tellMechanics } from './tell.js';
import type { Workplace } from './workplace.js';

/** A message is tried once more after a crash that left it unknown whether it went, and then no more. */
const ATTEMPTS_AT_MOST = 2;

/**
 * What to send for an intended message, as things stand now. The attempt is recorded before it is made, so that
 * a crash between attempt and answer is seen: then it is sent once more, marked as perhaps repeated.
 */
export async function prepareSend(
  place: Workplace,
  contact: string,
  message: string,
  now: number,
): Promise<Prepared> {
  const { state } = await place.store.contact(contact);
  const out = state.messages[message];
  if (!out || out.status !== 'intended') return { outcome: 'already-sent' };
  const person = await place.deps.record.people.get(contact);
  if (person?.chatId === undefined) return drop(place, contact, message, 'not-linked', now);
  if (out.attempts >= ATTEMPTS_AT_MOST) return giveUp(place, contact, message, now);
  if (await isTooLate(place, contact, out.kind, now)) return putOff(place, contact, out, now);
  const about = await settleMatters(place, contact, out, now);
  if (about === 'settled') return drop(place, contact, message, 'settled', now);
  const answer = await wordMessage(place, contact, { ...out, about }, now);
  const attempt = await recordAttempt(place, contact, out, now);
  const perhapsRepeated = mayHaveGone(out) || mayBeKnown(state, about);
  return { outcome: 'send', chatId: person.chatId, answer, about, perhapsRepeated, attempt };
}

const mayHaveGone = ({ attempts, doubtful }: MessageOut): boolean => attempts > 0 || doubtful;

/** Whether one of the matters was in a message that was put off for the hour, and may have reached them before. */
function mayBeKnown({ messages }: ContactState, about: readonly Matter[]): boolean {
  const dues = new Set(about.flatMap(({ due }) => due ?? []));
  return Object.values(messages).some(
    (out) =>
      out.why === 'late' && mayHaveGone(out) && out.about.some(({ due }) => due !== null && dues.has(due)),
  );
}

/** Whether the hours for it have passed while it waited to go. */
async function isTooLate(
  place: Workplace,
  contact: string,
  kind: MessageKind,
  now: number,
): Promise<boolean> {
  const { state: shop, policy } = await place.store.shop();
  switch (kind) {
    case 'supplier-day':
      return !isWithinHours(calendarOf(contact, shop, policy), now);
    case 'notice':
    case 'yes-asked':
      return nextOwnerHour(policy, now) > now;
    case 'round-up':
    case 'nudge':
    case 'told':
    case 'release-asked':
    case 'guest-asked':
    case 'welcome':
    case 'trouble':
      return false;
  }
}

/** What it was about is due again, and goes with what else is at that time. */
async function putOff(place: Workplace, contact: string, out: MessageOut, now: number): Promise<Prepared> {
  const dropped = await drop(place, contact, out.id, 'late', now);
  const jobs = new Set(out.about.flatMap(({ job }) => (job === null ? [] : [job])));
  for (const job of jobs) await place.store.reindex(job, now);
  return dropped;
}

/** Gives the attempt's own number, under which its outcome is recorded. */
async function recordAttempt(
  place: Workplace,
  contact: string,
  out: MessageOut,
  now: number,
): Promise<string> {
  const attempt = `${out.tries + 1}`;
  const change = { commandId: `${out.id}-attempt-${attempt}`, at: now, by: 'benchhand' };
  await place.store.toContact(contact, change, () => [contactEvent('message-attempted', { id: out.id })]);
  return attempt;
}

async function drop(
  place: Workplace,
  contact: string,
  id: string,
  why: 'settled' | 'not-linked' | 'forgotten' | 'late',
  now: number,
): Promise<Prepared> {
  const change = { commandId: `${id}-dropped`, at: now, by: 'benchhand' };
  await place.store.toContact(contact, change, () => [contactEvent('message-dropped', { id, why })]);
  return { outcome: 'drop' };
}

async function giveUp(place: Workplace, contact: string, id: string, now: number): Promise<Prepared> {
  await recordFailed(place, contact, id, 'unknown', now);
  return { outcome: 'drop' };
}

export async function recordSent(
  place: Workplace,
  contact: string,
  id: string,
  sent: { chatMessage: number; about: Matter[]; perhapsRepeated: boolean; answer: Answer },
  now: number,
): Promise<void> {
  const { chatMessage, about, perhapsRepeated, answer } = sent;
  const change = { commandId: `${id}-sent`, at: now, by: 'benchhand' };
  await place.store.toContact(contact, change, () => [
    contactEvent('message-sent', { id, chatMessage, perhapsRepeated, about }),
  ]);
  const person = await place.deps.record.people.get(contact);
  if (person?.chatId !== undefined && answer.thread) {
    await place.deps.record.chatMessages.put(person.chatId, chatMessage, answer.thread);
  }
}

/** It did not go now: the next try is told whether this one may have reached them. */
export async function recordPostponed(
  place: Workplace,
  contact: string,
  id: string,
  why: 'turned-away' | 'no-answer',
  attempt: string,
  now: number,
): Promise<void> {
  const change = { commandId: `${id}-postponed-${attempt}`, at: now, by: 'benchhand' };
  await place.store.toContact(contact, change, () => [contactEvent('message-postponed', { id, why })]);
}

/** A message that cannot reach its person is said to the mechanics, unless it was to one of them. */
export async function recordFailed(
  place: Workplace,
  contact: string,
  id: string,
  why: string,
  now: number,
): Promise<void> {
  const change = { commandId: `${id}-failed`, at: now, by: 'benchhand' };
  await place.store.toContact(contact, change, () => [contactEvent('message-failed', { id, why })]);
  const { state } = await place.store.shop();
  if (state.people[contact]?.roles.includes('mechanic')) return;
  const about = [matterOf(null, { person: contact })];
  const telling = { id: `${id}-trouble`, kind: 'trouble' as const, about, at: now, by: 'benchhand' };
  await tellMechanics(place, telling);
}
