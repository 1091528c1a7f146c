import { correctionMarks } from './correction-marks.js';
import type { Token } from '../text/tokens.js';
import type { Chunk } from '../tagging/chunk.js';
import { wordAt } from '../text/word-at.js';

const CORRECTABLE = new Set<Chunk['kind']>([
  'part',
  'place',
  'condition',
  'measure',
  'money',
  'date',
  'count',
  'stored',
  'item',
  'supplier',
  'remedy',
  'process',
  'machine',
  'act',
]);
const FILLER = new Set<Chunk['kind']>(['article', 'copula', 'of', 'word', 'pronoun', 'aside', 'quantity']);

const isComma = (chunk: Chunk | undefined): boolean => chunk?.kind === 'break' && chunk.strength === 'comma';
const soft = (chunk: Chunk | undefined): boolean => chunk?.kind === 'break';

/** A figure alone ("no, 70.8") takes the place of a measure or a sum. */
const figureOf = (chunk: Chunk, tokens: readonly Token[]): number | undefined => {
  const token = tokens[chunk.from];
  return (chunk.kind === 'word' || chunk.kind === 'count') &&
    chunk.to === chunk.from + 1 &&
    token?.kind === 'number'
    ? token.value
    : undefined;
};

function replaces(earlier: Chunk, later: Chunk, tokens: readonly Token[]): Chunk | null {
  if (earlier.kind === later.kind && CORRECTABLE.has(later.kind)) return later;
  const figure = figureOf(later, tokens);
  if (figure === undefined) return null;
  if (earlier.kind === 'measure') return { ...earlier, from: later.from, to: later.to, value: figure };
  // "in bag 21, no, 22"
  if (earlier.kind === 'stored' && /\d$/.test(earlier.stored))
    return { ...earlier, stored: earlier.stored.replace(/\d+$/, String(figure)) };
  if (earlier.kind === 'money')
    return { ...earlier, from: later.from, to: later.to, cost: { ...earlier.cost, amount: figure } };
  return figureOf(earlier, tokens) === undefined ? null : later;
}

/** Whether a plain "no" between two like things corrects the first, rather than denying the second. */
function plainNoCorrects(chunks: readonly Chunk[], at: number, later: Chunk): boolean {
  const commas = isComma(chunks[at + 1]) || (isComma(chunks[at - 1]) && later.kind !== 'condition');
  if (later.kind === 'condition') return isComma(chunks[at + 1]) && isComma(chunks[at - 1]);
  if (later.kind === 'part') return isComma(chunks[at + 1]) || chunks[at + 1]?.kind === 'article';
  return commas || chunks[at + 1]?.kind !== 'part';
}

/** "only", "just" (which may also say that a part of something came). */
const onlyWord = (chunk: Chunk | undefined): boolean => chunk?.kind === 'act' && chunk.outcome === 'part';

/** Nothing but "one" or "side" after it, up to the end of the phrase. */
const closed = (chunks: readonly Chunk[], at: number, tokens: readonly Token[]): boolean => {
  const one = /^(one|ones|side|end|hand)$/.test(wordAt(tokens, chunks[at + 1]?.from ?? -1)) ? 1 : 0;
  const after = chunks[at + 1 + one];
  return after === undefined || after.kind === 'break' || after.kind === 'of';
};

type Correction = { from: number; to: number; later: number; put: Chunk };

/** The first correction: what it replaces (chunk `from`) through the marker, up to the later word. */
function findCorrection(chunks: readonly Chunk[], tokens: readonly Token[]): Correction | null {
  for (let at = 1; at < chunks.length; at += 1) {
    const marker = chunks[at];
    const plainNo =
      marker?.kind === 'denial' &&
      /^(no|not)$/.test(wordAt(tokens, marker.from)) &&
      marker.to === marker.from + 1;
    if (marker?.kind !== 'correction' && !plainNo) continue;
    if (plainNo && tokens[marker.from]?.word === 'not') continue;
    let next = at + 1;
    while (
      next < chunks.length &&
      (soft(chunks[next]) || FILLER.has(chunks[next]?.kind ?? 'word') || onlyWord(chunks[next])) &&
      figureOf(chunks[next] as Chunk, tokens) === undefined
    )
      next += 1;
    const later = chunks[next];
    if (later === undefined) continue;
    if (plainNo && !plainNoCorrects(chunks, at, later)) continue;
    for (let back = at - 1; back >= Math.max(0, at - 8); back -= 1) {
      const earlier = chunks[back];
      if (earlier === undefined) break;
      if (earlier.kind === 'break' && earlier.strength === 'full' && back !== at - 1) break;
      const put = replaces(earlier, later, tokens);
      if (put !== null) return { from: back, to: at, later: next, put };
      // A plain "no" corrects only what stands right before it; a side or a number alone, what was told of since too.
      const alone = later.kind === 'place' || figureOf(later, tokens) !== undefined;
      const past = alone && closed(chunks, next, tokens) && /^(condition|part|supplier)$/.test(earlier.kind);
      if (plainNo && !past && !soft(earlier) && !FILLER.has(earlier.kind)) break;
    }
  }
  return null;
}

/** A thing named anew with its article loses what stood before the first naming: "a rear chain, no, a primary chain". */
function kept(before: Chunk[], lead: Chunk | undefined, put: Chunk): Chunk[] {
  if (put.kind !== 'part') return before;
  const strange = before.at(-1);
  if (lead?.kind !== 'article')
    return strange?.kind === 'place' && put.sides.length === 0 ? before.slice(0, -1) : before;
  let end = before.length;
  while (end > 0 && /^(place|count|article)$/.test(before[end - 1]?.kind ?? '')) end -= 1;
  return before.slice(0, end);
}

const MODIFIES = /^(place|count|article)$/;

/** "two rear tyres, no, one rear tyre": a thing named anew, with its own words before it, takes the place of the first. */
function correctPhrase(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const at = chunks.findIndex((chunk, index) => {
    const no =
      chunk.kind === 'denial' &&
      tokens[chunk.from]?.word === 'no' &&
      isComma(chunks[index - 1]) &&
      isComma(chunks[index + 1]);
    return chunk.kind === 'correction' || no;
  });
  if (at < 1) return [...chunks];
  let next = at + 1;
  while (soft(chunks[next])) next += 1;
  let end = next;
  while (MODIFIES.test(chunks[end]?.kind ?? '')) end += 1;
  let last = at - 1;
  while (soft(chunks[last])) last -= 1;
  if (end === next || chunks[end]?.kind !== 'part' || chunks[last]?.kind !== 'part') return [...chunks];
  let first = last;
  while (MODIFIES.test(chunks[first - 1]?.kind ?? '')) first -= 1;
  return [...chunks.slice(0, first), ...chunks.slice(next)];
}

/** "horn is dead, no sorry, the horn is fine": said over again of the same thing, the first saying goes. */
function saidOver(chunks: readonly Chunk[]): Chunk[] {
  const at = chunks.findIndex((chunk) => chunk.kind === 'correction');
  if (at < 1) return [...chunks];
  let next = at + 1;
  while (soft(chunks[next]) || chunks[next]?.kind === 'article' || chunks[next]?.kind === 'place') next += 1;
  const again = chunks[next];
  if (again?.kind !== 'part') return [...chunks];
  const first = chunks.findLastIndex(
    (chunk, index) => index < at && chunk.kind === 'part' && chunk.part === again.part,
  );
  const between = chunks.slice(first + 1, at).some((chunk) => chunk.kind === 'part');
  const told = chunks
    .slice(next + 1, next + 4)
    .some((chunk) => /^(condition|act|remedy|measure)$/.test(chunk.kind));
  return first < 0 || between || !told ? [...chunks] : [...chunks.slice(0, first), ...chunks.slice(at + 1)];
}

/** What is corrected in mid-sentence counts as corrected: "the front, no, the rear". */
export function applyCorrections(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  let out = correctPhrase(saidOver(correctionMarks(chunks, tokens)), tokens);
  for (let round = 0; round < 5; round += 1) {
    const found = findCorrection(out, tokens);
    if (found === null) break;
    const between = out
      .slice(found.from + 1, found.to)
      .filter((chunk) => !soft(chunk) && !FILLER.has(chunk.kind));
    out = [
      ...kept(out.slice(0, found.from), out[found.later - 1], found.put),
      found.put,
      ...between,
      ...out.slice(found.later + 1),
    ];
  }
  return dropDenied(out).filter((chunk) => chunk.kind !== 'correction');
}

/** "the front, not the rear": the thing denied beside another of its kind goes. */
function dropDenied(chunks: readonly Chunk[]): Chunk[] {
  const drop = new Set<number>();
  chunks.forEach((chunk, at) => {
    if (chunk.kind !== 'denial') return;
    const article = chunks[at + 1]?.kind === 'article' ? 1 : 0;
    const denied = chunks[at + 1 + article];
    if (
      denied?.kind !== 'place' &&
      denied?.kind !== 'date' &&
      denied?.kind !== 'money' &&
      denied?.kind !== 'measure'
    )
      return;
    const others = chunks.some(
      (other, index) => other.kind === denied.kind && Math.abs(index - at) <= 6 && index !== at + 1 + article,
    );
    if (!others) return;
    for (let index = at; index <= at + 1 + article; index += 1) drop.add(index);
  });
  return chunks.filter((_, index) => !drop.has(index));
}
