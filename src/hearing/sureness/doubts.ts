import type { Token } from '../text/tokens.js';
import { bearer, told, type Field } from './evidence.js';
import type { Span, Surroundings } from './surroundings.js';

/** A stretch of the text, by its letters from `from` up to `to`, that whoever wrote it down was not sure of. */
export type Doubt = { readonly from: number; readonly to: number };

/** A word of a recogniser and how likely it is to be right, from 0 to 1. */
export type HeardWord = { readonly word: string; readonly confidence: number };

/** The text of a recogniser's words, and the stretches of it that are less likely than `floor` to be right. */
export function doubtsOf(words: readonly HeardWord[], floor: number): { text: string; doubts: Doubt[] } {
  const doubts: Doubt[] = [];
  let text = '';
  for (const { word, confidence } of words) {
    if (text !== '') text += ' ';
    const from = text.length;
    text += word;
    if (confidence < floor) doubts.push({ from, to: text.length });
  }
  return { text, doubts };
}

/**
 * Which of the words after repair come from doubted letters. Words that repair left alone match one to one; what it put
 * in stands for all the words of the message up to the next that match.
 */
export function doubtedTokens(
  said: readonly Token[],
  repaired: readonly Token[],
  doubts: readonly Doubt[],
): ReadonlySet<number> {
  const doubted = new Set<number>();
  if (doubts.length === 0) return doubted;
  const shaky = shakyWords(said, doubts);
  let next = 0;
  repaired.forEach((token, at) => {
    const from = next;
    if (said[next]?.word === token.word) next += 1;
    else {
      const after = repaired[at + 1]?.word;
      const found = said.findIndex((one, index) => index > from && one.word === after);
      next = after === undefined || found < 0 ? (after === undefined ? said.length : from + 1) : found;
    }
    for (let index = from; index < next; index += 1) if (shaky.has(index)) doubted.add(at);
  });
  return doubted;
}

function shakyWords(said: readonly Token[], doubts: readonly Doubt[]): Set<number> {
  const shaky = new Set<number>();
  let place = 0;
  said.forEach((token, at) => {
    const from = place + token.before.length;
    place = from + token.text.length;
    if (doubts.some((doubt) => doubt.from < place && doubt.to > from)) shaky.add(at);
  });
  return shaky;
}

/** Whether a field hangs on a doubted word: one that tells it, that names the thing, or that denies in its stretch. */
export function bearsDoubt(around: Surroundings, at: number, field: Field): boolean {
  const { doubted, chunks, items } = around;
  const item = items[at];
  const own = around.reaches[at]?.own;
  if (item === undefined || own === undefined || doubted.size === 0) return false;
  const anchor = around.anchors[at] ?? null;
  const shaky = (span: Span | null): boolean =>
    span !== null && [...doubted].some((index) => index >= span.from && index < span.to);
  if (field === 'part' || field === 'item') return told(item, field).length > 0 && shaky(anchor);
  if (told(item, field).some((value) => shaky(bearer(field, value, anchor, chunks)))) return true;
  return (
    field === 'conditions' &&
    chunks.some(
      (chunk) => chunk.kind === 'denial' && chunk.from >= own.from && chunk.to <= own.to && shaky(chunk),
    )
  );
}
