import type { Happened, Written } from '../journal.js';
import { strays } from './told-once.js';

/** A chat of somebody whom the shop knows no more, or never did, from an instant on (Unix milliseconds). */
type OutsidersChat = { who: string; chat: number; from: number };

/** Somebody the shop does not know is written to in answer alone, and told no machine's nor anybody's name. */
export function toldOutsiders(
  { who, chat, from }: OutsidersChat,
  happened: readonly Happened[],
  names: readonly string[],
): string[] {
  const isLater = ({ at }: Written): boolean => at >= from;
  const unasked = strays(happened, { who, chat, kept: [] }).filter(isLater);
  const named = happened
    .filter((entry): entry is Written => entry.kind === 'written' && entry.chat === chat)
    .filter(isLater)
    .flatMap(({ text }) => names.filter((name) => text.includes(name)));
  return [
    ...unasked.map(({ text }) => `${who}, whom nobody knows, was written to: ${text}`),
    ...named.map((name) => `${who}, whom nobody knows, was told of ${name}`),
  ];
}
