import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordsOf } from '../text/word-at.js';
import type { Settle } from './settle.js';

const isComma = (chunk: Chunk | undefined): boolean => chunk?.kind === 'break' && chunk.strength === 'comma';

const asCorrection = ({ from, to }: Chunk): Chunk => ({ kind: 'correction', from, to });

const AMOUNT = /^(count|measure|money|date|stored|item)$/;

/** Words that put right only between commas or before an amount: "scrap that, it's …", "better make it three". */
const putsRight: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (at === 0) return chunk;
    const said = wordsOf(tokens, chunk);
    const next = chunks[at + 1];
    const figure = next !== undefined && (AMOUNT.test(next.kind) || tokens[next.from]?.kind === 'number');
    if (/^(better )?make it$/.test(said) && figure) return asCorrection(chunk);
    const after = chunks[isComma(next) ? at + 2 : at + 1];
    const again = after !== undefined && after.kind === 'measure';
    if (/^(hang|hold) on$/.test(said) && again) return asCorrection(chunk);
    const apart = chunks[at - 1]?.kind === 'break' && isComma(next);
    return apart && /^(scrap|bin|leave|lose) that$/.test(said) ? asCorrection(chunk) : chunk;
  });

/** "no, on second thoughts, …": marks in a row are one. */
function oneMark(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const out: Chunk[] = [];
  for (const chunk of chunks) {
    const last = out.at(-1);
    const before = isComma(last) ? out.at(-2) : last;
    const no = before?.kind === 'denial' && /^(no|nope)$/.test(wordsOf(tokens, before));
    const marked = before?.kind === 'correction' || (no && out.length > 1);
    if (chunk.kind === 'correction' && marked && before !== undefined) {
      out.splice(out.indexOf(before), out.length, { kind: 'correction', from: before.from, to: chunk.to });
    } else out.push(chunk);
  }
  return out;
}

const MODIFIES = /^(place|count|article)$/;

/** "rear bearing worn, er, front bearing I should say": a mark after what it puts in stands before it. */
function markBefore(chunks: readonly Chunk[]): Chunk[] {
  const at = chunks.findIndex(
    (chunk, index) =>
      chunk.kind === 'correction' &&
      (chunks[index + 1] === undefined || chunks[index + 1]?.kind === 'break') &&
      (chunks[index - 1]?.kind === 'part' || chunks[index - 1]?.kind === 'place'),
  );
  if (at < 2) return [...chunks];
  let first = at - 1;
  while (MODIFIES.test(chunks[first - 1]?.kind ?? '')) first -= 1;
  const mark = chunks[at];
  const led = isComma(chunks[first - 1]) || chunks[first - 1]?.kind === 'word';
  if (!led || mark === undefined) return [...chunks];
  return [...chunks.slice(0, first), mark, ...chunks.slice(first, at), ...chunks.slice(at + 1)];
}

/** The marks of corrections, each in one piece and before what it puts in. */
export const correctionMarks: Settle = (chunks, tokens) =>
  markBefore(oneMark(putsRight(chunks, tokens), tokens));
