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
    const theirs =
      chunks[at - 1]?.kind === 'supplier' || /^(he|she|they|who)$/.test(tokens[chunk.from - 1]?.word ?? '');
    const counted =
      !theirs &&
      next?.kind === 'count' &&
      next.count < 20 &&
      (then === undefined || then.kind === 'break' || then.kind === 'money');
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

const RIGHT_ON =
  /^(through|round|around|across|along|down|up|into|by|where|next|beside|behind|under|underneath|above|over|off|out|away|back|against|inside|below|angle|angles|to|at|on|in)$/;

/** "worn right through", "gone right soft", "a right mess": no side, but how much. */
function settleRight(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    if (chunk.kind !== 'place' || chunk.place !== 'right' || tokens[chunk.from]?.word !== 'right')
      return chunk;
    if (chunk.to !== chunk.from + 1) return chunk;
    const [before, next] = [tokens[chunk.from - 1]?.word ?? '', chunks[at + 1]];
    if (before === 'the') return chunk;
    const led = /^(gone|got|is|are|was|were|'s|'re|been|looks|look|a|have|has|had|it|them)$/.test(before);
    const towards =
      RIGHT_ON.test(tokens[chunk.to]?.word ?? '') &&
      (chunks[at - 1]?.kind !== 'break' || next?.kind !== 'of');
    const much = led && (next?.kind === 'condition' || (before === 'a' && next?.kind === 'word'));
    return towards || much ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'right' } : chunk;
  });
}

/** "make it eighteen thou": put right, not made. */
const settleMakeIt: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const [it, next] = [chunks[at + 1], chunks[at + 2]];
    const plain = chunk.kind === 'remedy' && tokens[chunk.from]?.word === 'make' && it?.kind === 'pronoun';
    return plain && /^(measure|date|money)$/.test(next?.kind ?? '')
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'make' }
      : chunk;
  });

/** "the condenser swapped", "replaced the cable": that was done, where "to be replaced" and "needs replacing" are not. */
const settleSwapped: Settle = (chunks, tokens) =>
  chunks.map((chunk) => {
    if (chunk.kind !== 'remedy' || chunk.to !== chunk.from + 1) return chunk;
    if (!/^(swapped|replaced|renewed|changed)$/.test(tokens[chunk.from]?.word ?? '')) return chunk;
    const before = tokens.slice(Math.max(0, chunk.from - 4), chunk.from).map(({ word }) => word);
    return before.some((word) =>
      /^(be|get|gets|getting|needs?|wants?|it|them|want|having|both|that|those)$/.test(word),
    )
      ? chunk
      : { from: chunk.from, to: chunk.to, kind: 'act', act: 'fitted', outcome: null };
  });

/** "some clown has built up the hanger": what others did before is no work of ours. */
const settleOthers: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const before = chunks[at - 1];
    const others =
      before?.kind === 'condition' &&
      before.condition === 'bodged' &&
      /^(some|someone|somebody|previous|last)$/.test(tokens[before.from]?.word ?? '');
    return others && chunk.kind === 'act'
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: tokens[chunk.from]?.word ?? '' }
      : chunk;
  });

/** "tappets done: inlet 2 thou": done, and measured. */
const settleDone: Settle = (chunks, tokens) => {
  const measured = chunks.some((chunk) => chunk.kind === 'measure');
  if (!measured || chunks.some((chunk) => chunk.kind === 'date' || chunk.kind === 'supplier'))
    return [...chunks];
  return chunks.map((chunk, at) =>
    chunk.kind === 'word' && tokens[chunk.from]?.word === 'done' && chunks[at - 1]?.kind === 'part'
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'fitted', outcome: null }
      : chunk,
  );
};

/** "wheels gone for powder coat", "it's gone down to Dunn": gone there, not gone in itself. */
const settleGoneTo: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'condition' || tokens[chunk.to - 1]?.word !== 'gone') return chunk;
    let next = at + 1;
    while (
      /^(of|article)$/.test(chunks[next]?.kind ?? '') ||
      /^(off|over|round|down|up|out|away|back)$/.test(tokens[chunks[next]?.from ?? -1]?.word ?? '')
    )
      next += 1;
    const towards = chunks[next]?.kind === 'process' || chunks[next]?.kind === 'supplier';
    const led = /^(for|to|off|over|round|down|up|out|away|with|at)$/.test(tokens[chunk.to]?.word ?? '');
    return led && towards
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'sent', outcome: null }
      : chunk;
  });

/** "Dunn collected the forks", "the courier picked the crank up": who fetched it took it away. */
const settleFetched: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const word = tokens[chunk.from]?.word ?? '';
    if (!/^(collected|picked|fetched)$/.test(word) || (chunk.kind !== 'act' && chunk.kind !== 'word'))
      return chunk;
    const before = chunks[at - 1];
    const theirs =
      (before?.kind === 'supplier' && before.from === 0) ||
      /^(courier|carrier|driver|van)$/.test(tokens[chunk.from - 1]?.word ?? '') ||
      (/^(they|he|she)$/.test(tokens[chunk.from - 1]?.word ?? '') &&
        chunks.some((one) => one.kind === 'supplier'));
    return theirs && (chunk.kind === 'act' ? chunk.act === 'back' : true)
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'sent', outcome: null }
      : chunk;
  });

/** "Dunn's got the forks", nothing else told: they are there. */
const settleHas: Settle = (chunks, tokens) => {
  const [who, has, thing] = chunks;
  const told = chunks
    .slice(3)
    .some((one) => /^(date|condition|remedy|money|act|measure|stored)$/.test(one.kind));
  if (who?.kind !== 'supplier' || !who.speaks || has?.kind !== 'copula' || told) return [...chunks];
  const next = chunks.slice(2).find((one) => !/^(copula|article|place|count)$/.test(one.kind));
  const got = /^(has|have|got|'s)$/.test(tokens[has.from]?.word ?? '') && thing !== undefined;
  if (!got || next?.kind !== 'part') return [...chunks];
  const verb = tokens[has.from]?.word === "'s" ? chunks[2] : has;
  if (verb === undefined || !/^(has|have|got)$/.test(tokens[verb.from]?.word ?? '')) return [...chunks];
  return chunks.map((one) =>
    one === verb ? { from: one.from, to: one.to, kind: 'act', act: 'sent', outcome: null } : one,
  );
};

const COMES = /^(coming|arriving|expected|landing|here|home|due|delivery|delivered|round|in|over|back)$/;

/** "two new tyres coming Friday", "is dropping it in on Saturday": a day that was given. */
const settleComing: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const next = chunks[at + 1]?.kind === 'of' ? chunks[at + 2] : chunks[at + 1];
    if (next?.kind !== 'date' || chunk.to !== chunk.from + 1) return chunk;
    const word = tokens[chunk.from]?.word ?? '';
    const bringing = tokens
      .slice(Math.max(0, chunk.from - 8), chunk.from)
      .some((token) => /^(dropping|bringing|sending|fetching|posting|delivering)$/.test(token.word));
    const comes = /^(coming|arriving|expected|landing)$/.test(word) && chunk.kind === 'word';
    return comes || (bringing && COMES.test(word) && /^(word|of|act|place)$/.test(chunk.kind))
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'promised', outcome: null }
      : chunk;
  });

const AWAY = /^(through|off|away|across|in|out|round|over|in)$/;

/** "burnt clean through", "snapped clean off": how thoroughly, no work to be done. "a fresh lining" is work. */
const settleThorough: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'remedy' || chunk.to !== chunk.from + 1) return chunk;
    const word = tokens[chunk.from]?.word ?? '';
    const next = tokens[chunk.to]?.word ?? '';
    const thorough =
      word === 'clean' &&
      AWAY.test(next) &&
      !/^(it|them|to|and|,)$/.test(tokens[chunk.from - 1]?.word ?? '') &&
      at > 0 &&
      chunks[at - 1]?.kind !== 'break';
    const work = word === 'fresh' && chunks[at + 1]?.kind === 'process';
    return thorough || work ? { from: chunk.from, to: chunk.to, kind: 'word', word } : chunk;
  });

const PUT_AWAY = /^(stuck|gone|slung|chucked|dumped|left|lost)$/;

/** "stuck the carb on shelf 3", "that's gone in bag 31": put away there, nothing wrong with it. */
const settlePutAway: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'condition' && chunk.kind !== 'place') return chunk;
    if (!PUT_AWAY.test(tokens[chunk.from]?.word ?? '') || chunk.to !== chunk.from + 1) return chunk;
    const rest = chunks.slice(at + 1);
    const stored = rest.findIndex((one) => one.kind === 'stored');
    const between = rest.slice(0, Math.max(0, stored));
    const plain = between.every((one) => /^(part|article|word|count|place|of|pronoun|and)$/.test(one.kind));
    const object = between.length === 0 || between[0]?.kind === 'article' || between[0]?.kind === 'pronoun';
    return stored >= 0 && plain && object
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'stripped', outcome: null }
      : chunk;
  });

/** Words of what was done or is wanted, settled by their company. */
export const TOLD_STEPS: readonly Settle[] = [
  settleRight,
  settleGoneTo,
  settleFetched,
  settleHas,
  settleMakeIt,
  settleSwapped,
  settleOthers,
  settleDone,
  settleComing,
  settleThorough,
  settlePutAway,
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
