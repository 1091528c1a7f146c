import type { MessageOut } from '../contact/state.js';
import type { Answer } from '../wording/answer.js';
import type { Health, SendTrouble, Surroundings } from '../wording/health.js';
import { healthText } from '../wording/health.js';
import { todayOf } from './calendars.js';
import type { Outside } from './outside.js';
import { speakerFor } from './speaker.js';
import type { Workplace } from './workplace.js';

/** A send that failed for good is told of for so long. */
const FAILED_TOLD_MS = 7 * 24 * 3_600_000;

/** How Benchhand itself is: what waits, what fails, what room there is, and whether what was said is safe. */
export async function howAreYou(place: Workplace, now: number): Promise<Answer> {
  const [{ policy }, people, health] = await Promise.all([
    place.store.shop(),
    place.deps.record.people.all(),
    healthOf(place, now),
  ]);
  return healthText(health, speakerFor(todayOf(policy, now), policy, people));
}

async function healthOf(place: Workplace, now: number): Promise<Health> {
  const { record, outside } = place.deps;
  const [sends, backUp] = await Promise.all([sendTroubles(place, now), record.backUps.account()]);
  return { now, sends, backUp, around: outside ? await look(outside, await record.files.bytes()) : null };
}

async function look(outside: Outside, picturesBytes: number): Promise<Surroundings> {
  const [longestWaitMs, wokeAgoMs, disk, redis] = await Promise.all([
    outside.longestWaitMs(),
    outside.wokeAgoMs(),
    outside.disk(),
    outside.redis(),
  ]);
  const keepsBackUps = outside.backUp !== null;
  return { longestWaitMs, wokeAgoMs, disk: { ...disk, picturesBytes }, redis, keepsBackUps };
}

/** Messages that were tried and have not gone, and those lately given up. */
async function sendTroubles(place: Workplace, now: number): Promise<SendTrouble[]> {
  const { state: shop } = await place.store.shop();
  const people = Object.values(shop.people).filter(({ forgotten }) => !forgotten);
  const found = await Promise.all(
    people.map(async ({ id }) => {
      const { state } = await place.store.contact(id);
      return Object.values(state.messages).flatMap((out) => troubleOf(id, out, now));
    }),
  );
  return found.flat();
}

function troubleOf(person: string, out: MessageOut, now: number): SendTrouble[] {
  const { status, tries, intendedAt } = out;
  if (status === 'intended' && tries > 0) return [{ person, tries, since: intendedAt, isGivenUp: false }];
  const isLate = status === 'failed' && now - intendedAt < FAILED_TOLD_MS;
  return isLate ? [{ person, tries, since: intendedAt, isGivenUp: true }] : [];
}
