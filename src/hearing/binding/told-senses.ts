import type { Token } from '../text/tokens.js';
import type { Chunk } from '../tagging/chunk.js';

export type Settle = (chunks: readonly Chunk[], tokens: readonly Token[]) => Chunk[];

/** "one copper washer short", of what came: not all of it did. */
function settleShort(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  if (!chunks.some((chunk) => chunk.kind === 'act' && chunk.act === 'back')) return [...chunks];
  const isShort = (chunk: Chunk | undefined): boolean => tokens[chunk?.from ?? -1]?.word === 'short';
  return chunks.flatMap((chunk, at): Chunk[] => {
    const [first, second, third] = chunks.slice(at, at + 3);
    const counted = first?.kind === 'count' || tokens[first?.from ?? -1]?.word === 'one';
    if (counted && second?.kind === 'part' && isShort(third))
      return [{ kind: 'act', from: chunk.from, to: third?.to ?? chunk.to, act: 'back', outcome: 'part' }];
    const inside =
      (chunk.kind === 'part' && isShort(chunks[at + 1])) ||
      (isShort(chunk) && chunks[at - 1]?.kind === 'part');
    return inside && chunks.slice(0, at).some((one) => one.kind === 'act') ? [] : [chunk];
  });
}

const THREADED =
  /(stud|bolt|nut|screw|lug|plug|thread|hole|boss|spindle|cap|union|adjuster|housing|casing|head)$/;

/** "8 head studs, 2 stripped", "the lugs are stripped": of what has a thread, unless it was taken apart. */
function settleStripped(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const threaded = chunks.some((chunk) => chunk.kind === 'part' && THREADED.test(chunk.said));
  return chunks.map((chunk, at) => {
    if (!threaded || chunk.kind !== 'act' || tokens[chunk.from]?.word !== 'stripped') return chunk;
    if (chunk.to !== chunk.from + 1) return chunk;
    const [before, next] = [chunks[at - 1], chunks[at + 1]];
    const ends = next === undefined || next.kind === 'break' || next.kind === 'and';
    const told = before?.kind === 'count' || before?.kind === 'copula' || before?.kind === 'part';
    return ends && told && at > 0
      ? { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'stripped-thread' }
      : chunk;
  });
}

/** "so I'll need four": what is needed is new. */
function settleNeeds(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    const [next, then] = [chunks[at + 1], chunks[at + 2]];
    const needs = chunk.kind === 'word' && /^(need|needs|want|wants)$/.test(tokens[chunk.from]?.word ?? '');
    const counted =
      next?.kind === 'count' && (then === undefined || then.kind === 'break' || then.kind === 'money');
    return needs && counted ? { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'replace' } : chunk;
  });
}

/** "is due back on 9 March" gives a day; nothing was put back on. */
function settleBackOn(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) =>
    chunk.kind === 'act' &&
    chunk.act === 'fitted' &&
    /^(on|in)$/.test(tokens[chunk.to - 1]?.word ?? '') &&
    tokens[chunk.from]?.word === 'back' &&
    chunks[at + 1]?.kind === 'date'
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'promised', outcome: null }
      : chunk,
  );
}

/** "I thought about rebuilding, but no, new ones": what came before the "but no" was given up. */
function settleButNo(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const at = chunks.findIndex(
    (chunk) =>
      chunk.kind === 'denial' && tokens[chunk.from]?.word === 'no' && tokens[chunk.from - 1]?.word === 'but',
  );
  const comma = chunks[at + 1]?.kind === 'break';
  if (
    at < 1 ||
    !comma ||
    !chunks.slice(at).some((chunk) => chunk.kind === 'remedy' || chunk.kind === 'process')
  )
    return [...chunks];
  const given = chunks.findLastIndex(
    (chunk, index) => index < at && (chunk.kind === 'process' || chunk.kind === 'remedy'),
  );
  return chunks.filter((_, index) => index !== given && index !== at);
}

/** "the stitching has gone": it went nowhere. */
const settleHasGone: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const said = tokens
      .slice(chunk.from, chunk.to)
      .map(({ word }) => word)
      .join(' ');
    const next = chunks[at + 1];
    return chunk.kind === 'act' && said === 'has gone' && next?.kind !== 'date' && next?.kind !== 'supplier'
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'gone' }
      : chunk;
  });

/** "they've sent two of one": what others sent has come. */
function settleTheySent(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk) => {
    if (chunk.kind !== 'act' || chunk.act !== 'sent') return chunk;
    const words = tokens.slice(chunk.from, chunk.to).map(({ word }) => word);
    const before = tokens.slice(Math.max(0, chunk.from - 2), chunk.from).map(({ word }) => word);
    const theirs = [...before, ...words.slice(0, 1)].some((word) => /^(they|he|she)$/.test(word));
    const plain = words.filter((word) => !/^('ve|'s|have|has)$/.test(word)).join(' ') === 'sent';
    return theirs && plain ? { ...chunk, act: 'back' } : chunk;
  });
}

/** "con rod's not bent, checked on the mandrels": that was looked at, and nothing is left to look at. */
const settleChecked: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) =>
    chunk.kind === 'remedy' &&
    chunk.remedy === 'check' &&
    chunk.to === chunk.from + 1 &&
    /^(checked|inspected)$/.test(tokens[chunk.from]?.word ?? '') &&
    !/^(be|get|needs|wants|getting|it|them)$/.test(tokens[chunk.from - 1]?.word ?? '') &&
    (at === 0 || chunks[at - 1]?.kind === 'break' || chunks[at - 1]?.kind === 'part')
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'checked' }
      : chunk,
  );

/** "the bottom weld", "at the weld": where on a thing it is, no work to be done. */
function settleWelds(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    const noun =
      chunk.kind === 'process' &&
      chunk.process === 'weld' &&
      /^welds?$/.test(tokens[chunk.to - 1]?.word ?? '');
    const [led, link, next] = [chunks[at - 1], chunks[at - 2], chunks[at + 1]];
    const where =
      (led?.kind === 'place' || led?.kind === 'article') &&
      link?.kind === 'of' &&
      tokens[link.from]?.word !== 'for';
    const ends = next === undefined || next.kind === 'break' || next.kind === 'and';
    return noun && where && ends ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'weld' } : chunk;
  });
}

/** "thread in the clamp stripped": the thread is, whatever it is in. */
function settleThread(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    if (chunk.kind !== 'act' || tokens[chunk.from]?.word !== 'stripped' || chunk.to !== chunk.from + 1)
      return chunk;
    const next = chunks[at + 1];
    const ends = next === undefined || next.kind === 'break' || next.kind === 'and';
    const ofThread = tokens
      .slice(Math.max(0, chunk.from - 5), chunk.from)
      .some(({ word }) => /^threads?$/.test(word));
    return ends && ofThread
      ? { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'stripped-thread' }
      : chunk;
  });
}

/** Words of what was done or is wanted, settled by their company. */
export const TOLD_STEPS: readonly Settle[] = [
  settleHasGone,
  settleTheySent,
  settleChecked,
  settleWelds,
  settleThread,
  settleShort,
  settleStripped,
  settleNeeds,
  settleBackOn,
  settleButNo,
];
