import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';

/** Kinds that speak of a bench: what is seen, done and measured there. */
const STRONG = new Set<Chunk['kind']>(['place', 'process', 'measure', 'stored']);
const WEAK_CONDITIONS = new Set([
  'good',
  'dirty',
  'noisy',
  'loose',
  'tight',
  'broken',
  'missing',
  'incorrect',
  'weak',
  'split',
  'leaking',
  'bent',
  'burnt',
]);
export const FIXED = new Set<Chunk['kind']>([
  'date',
  'money',
  'measure',
  'stored',
  'supplier',
  'machine',
  'item',
  'owner',
]);

/** What a chunk counts as evidence of bench talk, where a strong one counts 1: found on the spoken half of the tuning corpora. */
export const HALF_SURE = 0.6;
const SLIGHT = 0.4;

/** How much of the message, the window aside, is bench talk: 1 or more says that it is. */
export function evidence(chunks: readonly Chunk[], from: number, to: number, asking = false): number {
  let sum = asking ? HALF_SURE : 0;
  for (const chunk of chunks) {
    if (chunk.from < to && chunk.to > from) continue;
    if (STRONG.has(chunk.kind) || chunk.kind === 'part') sum += 1;
    else if (chunk.kind === 'condition') sum += WEAK_CONDITIONS.has(chunk.condition) ? HALF_SURE : 1;
    else if (chunk.kind === 'remedy' || chunk.kind === 'act') sum += HALF_SURE;
    else if (chunk.kind === 'supplier' || chunk.kind === 'money' || chunk.kind === 'date') sum += SLIGHT;
  }
  return sum;
}

const OPENS = new Set<Chunk['kind']>([
  'article',
  'place',
  'count',
  'break',
  'and',
  'condition',
  'remedy',
  'act',
  'denial',
  'of',
  'process',
  'owner',
  'supplier',
  'copula',
  'machine',
  'part',
  'also',
]);
const CLOSES = new Set<Chunk['kind']>([
  'copula',
  'condition',
  'remedy',
  'act',
  'break',
  'and',
  'process',
  'of',
  'place',
  'count',
  'supplier',
  'stored',
  'money',
  'measure',
  'date',
  'denial',
  'quantity',
  'also',
  'part',
  'pronoun',
]);

/** Whether a noun can stand there: after an article, a side, a verb; before what is said of it, or an end. */
export function nounSlot(chunks: readonly Chunk[], from: number, to: number): boolean {
  const before = chunks.findLast((chunk) => chunk.to <= from);
  const after = chunks.find((chunk) => chunk.from >= to);
  const opens =
    before === undefined ||
    OPENS.has(before.kind) ||
    (before.kind === 'word' &&
      /^(my|old|but|so|then|original|get|ran|check|up|out|down|that|other|little|big)$/.test(before.word));
  const closes =
    after === undefined ||
    CLOSES.has(after.kind) ||
    (after.kind === 'word' &&
      /^(but|so|then|needs|need|wants|want|on|off|in|out|all|both|looks|was|were|could|should|will|would|goes|came|went)$/.test(
        after.word,
      ));
  return opens && closes;
}

/** A speaker or a supplier stands there, not a part: "… agreed", "to …". */
export function personSlot(
  tokens: readonly Token[],
  chunks: readonly Chunk[],
  from: number,
  to: number,
): boolean {
  const after = chunks.find((chunk) => chunk.from >= to);
  const speaks = after?.kind === 'act' && (after.act === 'agreed' || after.act === 'promised');
  const holds =
    /^(has|have)$/.test(wordAt(tokens, to)) && /^(got|had)$/.test(wordAt(tokens, to + 1)) && from === 0;
  // "by some butcher", "with any luck"
  const vague = /^(some|any)$/.test(wordAt(tokens, from - 1)) ? 1 : 0;
  return holds || speaks || /^(to|from|with|by|at|off)$/.test(wordAt(tokens, from - 1 - vague));
}

/** Said as the thing that a finding is of: after an article, a side or nothing, before "is" or the finding itself. */
export function subjectSlot(chunks: readonly Chunk[], from: number, to: number): boolean {
  const before = chunks.findLast((chunk) => chunk.to <= from);
  const after = chunks.find((chunk) => chunk.from >= to);
  const opens = before === undefined || /^(article|place|count|break|and|act|remedy|part)$/.test(before.kind);
  return (
    opens &&
    (after?.kind === 'copula' ||
      after?.kind === 'condition' ||
      after === undefined ||
      after.kind === 'remedy')
  );
}

/** How bench-like the message is by its strong words alone. */
export const strength = (chunks: readonly Chunk[], from: number, to: number): number =>
  chunks.filter(
    (chunk) =>
      !(chunk.from < to && chunk.to > from) &&
      (STRONG.has(chunk.kind) ||
        chunk.kind === 'part' ||
        (chunk.kind === 'condition' && !WEAK_CONDITIONS.has(chunk.condition))),
  ).length;

/** A noun must stand there: "the … is pitted", "nearside … cracked"; whatever was heard, it was a thing. */
export function onlyNoun(chunks: readonly Chunk[], from: number, to: number): boolean {
  const before = chunks.findLast((chunk) => chunk.to <= from);
  const after = chunks.find((chunk) => chunk.from >= to);
  const next = after?.kind === 'copula' ? chunks.find((chunk) => chunk.from >= after.to) : after;
  const told = next?.kind === 'condition' && !WEAK_CONDITIONS.has(next.condition);
  const hard =
    next?.kind === 'condition' && /^(cracked|seized|bent|broken|split|leaking|loose)$/.test(next.condition);
  const led =
    before === undefined ||
    before.kind === 'article' ||
    before.kind === 'place' ||
    before.kind === 'count' ||
    before.kind === 'break';
  return led && (told || (hard && (before?.kind === 'place' || strength(chunks, from, to) >= 1)));
}
