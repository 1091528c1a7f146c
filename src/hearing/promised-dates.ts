import type { Place } from '../trade/terms.js';
import { dayAhead } from './dates/day-ahead.js';
import type { Reading } from './reading.js';

/** Told of what was done, a day is no promise: 'posted it on Friday'; 'will be posted on Friday' is one. */
const DONE =
  /(?<!\b(?:be|get|being|is|are|have it|have them) )\b(?:posted|dispatched|despatched|shipped|sent|collected|delivered|dropped (?:it|them) off)\b/i;

const TO_COME = /n['’]t\b|['’]ll\b|\b(?:not|will|going to|to be|by|yet|ready)\b/i;

/** Whether words tell of something done, and of nothing to come. */
const isDone = (text: string): boolean => DONE.test(text) && !TO_COME.test(text);

export type Thing = { part: string | null; place: readonly Place[] };

/**
 * The day that a supplier's words promise each of the things they have, in the order of these; null where they promise
 * none. A day said of one thing is not another's; one that is said of nothing they have, or of nothing, is for all.
 */
export function promisedDates(
  { text, items }: Reading,
  things: readonly Thing[],
  today: string,
): (string | null)[] {
  if (isDone(text)) return things.map(() => null);
  const dated = items.flatMap(({ part, place, due, unsure, act }) =>
    due === null || unsure.includes('due') || act === 'sent' || act === 'back' ? [] : [{ part, place, due }],
  );
  const ofThings = dated.filter((said) => things.some((thing) => isMeant(said, thing)));
  const others = dated.filter((said) => !ofThings.includes(said));
  const days = new Set(
    (ofThings.length > 0 ? others.filter(({ part }) => part === null) : others).map(({ due }) => due),
  );
  const [only, ...more] = days;
  const ofAll = more.length > 0 ? null : (only ?? (ofThings.length > 0 ? null : dayAhead(text, today)));
  return things.map((thing) => ofThings.find((said) => isMeant(said, thing))?.due ?? ofAll);
}

function isMeant(said: Thing, { part, place }: Thing): boolean {
  if (said.part === null || said.part !== part) return false;
  if (said.place.length === 0 || place.length === 0) return true;
  return said.place.every((each) => place.includes(each)) || place.every((each) => said.place.includes(each));
}
