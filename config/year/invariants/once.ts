import type { Seen } from '../../../bot/rehearsal/seen.js';
import type { MessageOut } from '../../../src/contact/state.js';
import { unasked } from './messages.js';

/** Every message that was to go went, or was dropped for a reason. */
export function neverSent(who: string, messages: readonly MessageOut[]): string[] {
  return messages
    .filter(({ status }) => status === 'intended')
    .map(({ id }) => `a message to ${who} never went: ${id}`);
}

/** What reached somebody twice, unasked. */
export function copies(messages: readonly Seen[]): number {
  const texts = unasked(messages).map(({ date, text }) => `${date} ${text}`);
  return texts.length - new Set(texts).size;
}

/** What somebody saw, and what the record has of the messages to them. */
export type SeenAndKept = { who: string; seen: readonly Seen[]; kept: readonly MessageOut[] };

/** Nothing is said to anybody twice but where the record says so of a message to them. */
export function repeated(people: readonly SeenAndKept[]): string[] {
  return people.flatMap(({ who, seen, kept }) => {
    const marked = kept.filter(({ perhapsRepeated }) => perhapsRepeated).length;
    return copies(seen) > marked
      ? [`${who} was told ${copies(seen)} things twice, and ${marked} are marked as perhaps repeated`]
      : [];
  });
}

/** No more messages are marked as perhaps repeated than faults struck that leave it open. */
export function markedTooOften(out: readonly MessageOut[], faults: number): string[] {
  const marked = out.filter(({ perhapsRepeated }) => perhapsRepeated).length;
  return marked > faults ? [`${marked} messages are marked as perhaps repeated after ${faults} faults`] : [];
}
