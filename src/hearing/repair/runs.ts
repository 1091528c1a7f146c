import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { FIXED } from './slots.js';

/** Words in a row that may be a part's name misheard: tokens `from` up to `to` of a message. */
export type Run = {
  tokens: readonly Token[];
  chunks: readonly Chunk[];
  from: number;
  to: number;
  /** The message asks. */
  asking: boolean;
};

/** Words from `from` up to `to` taken for a part's name; `sure` where nothing else makes sense of them. */
export type Repair = { from: number; to: number; name: string; plural: boolean; sure: boolean; cost: number };

/** A single word that was replaced costs more, since more names are near it by chance; found on the spoken half of the tuning corpora. */
export const SINGLE_WORD_COST = 0.05;

export const isSingle = ({ from, to }: Run): boolean => to - from === 1;

/** The words of a run, of a tail such as 's its letters. */
export const lettersOf = ({ tokens, from, to }: Run): string[] =>
  tokens.slice(from, to).map((token) => token.word.replace(/^'/, ''));

/** Whether nothing in the run counts as read already: a part in more than one word, an amount, a name. */
export function isOpen({ chunks, from, to }: Run, whole: boolean): boolean {
  return chunks.every((chunk) => {
    if (chunk.from >= to || chunk.to <= from) return true;
    if (FIXED.has(chunk.kind)) return false;
    const inside = chunk.from >= from && chunk.to <= to;
    if (chunk.kind === 'part') return whole && inside && chunk.to - chunk.from < to - from;
    if (chunk.to - chunk.from > 1 && !inside) return false;
    if (chunk.kind === 'aside') return inside;
    return whole || chunk.kind === 'word' || chunk.kind === 'correction';
  });
}
