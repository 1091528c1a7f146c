import type { Token } from '../text/tokens.js';
import type { Chunk } from '../tagging/chunk.js';
import { wordAt, wordsBefore, wordsOf } from '../text/word-at.js';
import { DOING_STEPS } from './doing-senses.js';
import { step, type Settle, type Step } from './settle.js';
import { settleVerdicts } from './verdicts.js';
import { WORK_STEPS } from './work-senses.js';

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

/** A threaded thing, at most one word of its name before it: "a stripped drain screw". */
const threadedNext = (chunks: readonly Chunk[], at: number): boolean =>
  chunks
    .slice(at, at + 2)
    .some(
      (one, index) =>
        one.kind === 'part' && THREADED.test(one.said) && (index === 0 || chunks[at]?.kind === 'word'),
    );

/** "8 head studs, 2 stripped", "the lugs are stripped": of what has a thread, unless it was taken apart. */
function settleStripped(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const threaded = chunks.some((chunk) => chunk.kind === 'part' && THREADED.test(chunk.said));
  return chunks.map((chunk, at) => {
    if (!threaded || chunk.kind !== 'act' || tokens[chunk.from]?.word !== 'stripped') return chunk;
    if (chunk.to !== chunk.from + 1) return chunk;
    const [before, next] = [chunks[at - 1], chunks[at + 1]];
    const within = next?.kind === 'of' && before?.kind === 'part' && THREADED.test(before.said);
    const ends = next === undefined || within || /^(break|and|pronoun)$/.test(next.kind);
    const told = before !== undefined && /^(count|copula|part|place)$/.test(before.kind);
    const adjective = before?.kind === 'article' && threadedNext(chunks, at + 1);
    return adjective || (ends && told && at > 0)
      ? { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'stripped-thread' }
      : chunk;
  });
}

/** More than a shop needs of one thing at a time: a sum, a year or a size. Common practice, no source. */
const TOO_MANY = 20;

/** "so I'll need four": what is needed is new. */
function settleNeeds(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    const [next, then] = [chunks[at + 1], chunks[at + 2]];
    const needs = chunk.kind === 'word' && /^(need|needs|want|wants)$/.test(wordAt(tokens, chunk.from));
    const theirs =
      chunks[at - 1]?.kind === 'supplier' || /^(he|she|they|who)$/.test(wordAt(tokens, chunk.from - 1));
    const counted =
      !theirs &&
      next?.kind === 'count' &&
      next.count < TOO_MANY &&
      (then === undefined || then.kind === 'break' || then.kind === 'money');
    return needs && counted ? { from: chunk.from, to: chunk.to, kind: 'remedy', remedy: 'replace' } : chunk;
  });
}

/** "is due back on 9 March" gives a day; nothing was put back on. */
function settleBackOn(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) =>
    chunk.kind === 'act' &&
    chunk.act === 'fitted' &&
    /^(on|in)$/.test(wordAt(tokens, chunk.to - 1)) &&
    tokens[chunk.from]?.word === 'back' &&
    chunks[at + 1]?.kind === 'date'
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'promised', outcome: null }
      : chunk,
  );
}

const RINGS = /^(ring|rings|ringing|rang|rung|phone|phoned|call|called|telephone|telephoned)$/;

/** "to be rung back on 01632 …", "call her back in a minute": somebody is, and nothing was put back on. */
function settleRungBack(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk) => {
    if (chunk.kind !== 'act' || chunk.act !== 'fitted' || tokens[chunk.from]?.word !== 'back') return chunk;
    const [before, last] = [tokens[chunk.from - 2]?.word ?? '', tokens[chunk.from - 1]?.word ?? ''];
    const isRung = RINGS.test(last) || (RINGS.test(before) && /^(me|us|him|her|them|you|back)$/.test(last));
    return isRung ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'back' } : chunk;
  });
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
    const said = wordsOf(tokens, chunk);
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
    const before = wordsBefore(tokens, chunk.from, 2);
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
    /^(checked|inspected)$/.test(wordAt(tokens, chunk.from)) &&
    !/^(be|get|needs|wants|getting|it|them)$/.test(wordAt(tokens, chunk.from - 1)) &&
    (at === 0 || chunks[at - 1]?.kind === 'break' || chunks[at - 1]?.kind === 'part')
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'checked' }
      : chunk,
  );

/** "the bottom weld", "at the weld": where on a thing it is, no work to be done. */
function settleWelds(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    const noun =
      chunk.kind === 'process' && chunk.process === 'weld' && /^welds?$/.test(wordAt(tokens, chunk.to - 1));
    const [led, link, next] = [chunks[at - 1], chunks[at - 2], chunks[at + 1]];
    const where =
      (led?.kind === 'place' || led?.kind === 'article') &&
      link?.kind === 'of' &&
      tokens[link.from]?.word !== 'for';
    const ends = next === undefined || next.kind === 'break' || next.kind === 'and';
    return noun && where && ends ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'weld' } : chunk;
  });
}

/** "clutch slips, otherwise fine": the rest is, not the clutch. */
function settleElse(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const dropped = new Set<number>();
  chunks.forEach((chunk, at) => {
    const said = wordsOf(tokens, chunk);
    const rest = /^(otherwise|everything else|other than that|apart from that|all else|the rest of it)$/.test(
      said,
    );
    const copula = chunks[at + 1]?.kind === 'copula' ? 1 : 0;
    const fine = chunks[at + 1 + copula];
    const good = fine?.kind === 'condition' && fine.condition === 'good';
    const before = chunks.slice(0, at).some((one) => one.kind === 'part');
    if (!rest || !good || !before) return;
    for (let index = at; index <= at + 1 + copula; index += 1) dropped.add(index);
  });
  return chunks.filter((_, at) => !dropped.has(at));
}

/** "stuck in the grooves": put nowhere, where no box or tray follows. */
const settleStuck: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) =>
    chunk.kind === 'act' &&
    tokens[chunk.from]?.word === 'stuck' &&
    !chunks.slice(at + 1, at + 4).some((one) => one.kind === 'stored')
      ? { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'seized' }
      : chunk,
  );

/** "thread in the clamp stripped": the thread is, whatever it is in. */
function settleThread(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    if (chunk.kind !== 'act' || tokens[chunk.from]?.word !== 'stripped' || chunk.to !== chunk.from + 1)
      return chunk;
    const next = chunks[at + 1];
    const ends = next === undefined || next.kind === 'break' || next.kind === 'and';
    const ofThread = wordsBefore(tokens, chunk.from, 5).some((word) => /^threads?$/.test(word));
    return ends && ofThread
      ? { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'stripped-thread' }
      : chunk;
  });
}

/** "I'm jiggered", "too old for lifting engines": told of whoever writes, not of a part. */
const settleOurselves: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    if (chunk.kind !== 'condition') return chunk;
    const [led, before] = [tokens[chunk.from - 1]?.word ?? '', tokens[chunk.from - 2]?.word ?? ''];
    const ours = /^('m|am|'re)$/.test(led) && /^(i|we|you)$/.test(before);
    const work = led === 'for' && /ing$/.test(tokens[chunk.to - 1]?.word ?? '');
    return ours || work ? { from: chunk.from, to: chunk.to, kind: 'word', word: '' } : chunk;
  });

/** Words of what was done or is wanted, settled by their company. */
export const TOLD_STEPS: readonly Step[] = [
  ...DOING_STEPS,
  ...WORK_STEPS.map((settle) => step(settle)),
  step(settleOurselves),
  step(settleHasGone, 'gone'),
  step(settleStuck, 'stuck'),
  step(settleElse, 'otherwise else than apart rest'),
  step(settleTheySent, 'sent'),
  step(settleChecked, 'checked inspected'),
  step(settleWelds, 'weld welds'),
  step(settleThread, 'stripped'),
  step(settleShort, 'short'),
  step(settleStripped, 'stripped'),
  step(settleNeeds, 'need needs want wants'),
  step(settleBackOn, 'back'),
  step(settleRungBack),
  step(settleButNo, 'but'),
  step(settleVerdicts),
];
