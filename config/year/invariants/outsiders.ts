import type { Seen } from '../../../bot/rehearsal/seen.js';
import { unasked } from './messages.js';

/** Somebody the shop does not know is written to in answer alone, and told no machine's nor anybody's name. */
export function toldOutsiders(
  who: string,
  messages: readonly Seen[],
  from: number,
  names: readonly string[],
): string[] {
  // A chat dates what is said in it by whole seconds.
  const later = messages.filter(({ date }) => date >= Math.floor(from));
  const named = later
    .filter(({ by }) => by === 'bot')
    .flatMap(({ text }) => names.filter((name) => text.includes(name)));
  return [
    ...unasked(later).map(({ text }) => `${who}, whom nobody knows, was written to: ${text}`),
    ...named.map((name) => `${who}, whom nobody knows, was told of ${name}`),
  ];
}
