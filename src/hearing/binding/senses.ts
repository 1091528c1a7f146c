import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { DECISION_STEPS } from './decision-senses.js';
import { settleLeft, settleRight, settleSolid, settleWhere } from './place-senses.js';
import { settleExhaust, settleValveSeat } from './exhaust-senses.js';
import { MEASURE_STEPS } from './measure-senses.js';
import { FITTING_STEPS } from './fitting-senses.js';
import { settleMiles, settleRide } from './ride-senses.js';
import { SENDING_STEPS } from './sending-senses.js';
import { settledBy, step, type Settle, type Step } from './settle.js';
import { STANDING_STEPS } from './standing-senses.js';
import { TOLD_STEPS } from './told-senses.js';
import { settleWork } from './work-by-part.js';

/** "5 thou runout" gives a measure, not a finding of its own. */
function settleMeasured(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    if (chunk.kind !== 'condition') return chunk;
    const quantity = chunk.or?.find((meaning) => meaning.kind === 'quantity');
    const words = tokens
      .slice(chunk.from, chunk.to)
      .map((token) => token.word)
      .join('');
    const noun =
      /^(runout|ovality|play|freeplay|sideplay|slack|warp|bow|warpage|distortion|eccentricity|wobble|bend|out)$/.test(
        words,
      );
    const of = chunks[at - 1]?.kind === 'of' ? chunks[at - 2] : undefined;
    const near = [chunks[at - 1], of, chunks[at + 1], chunks[at + 2]].some(
      (other) => other?.kind === 'measure',
    );
    if (quantity === undefined || !near || !noun) return chunk;
    return { from: chunk.from, to: chunk.to, ...quantity };
  });
}

const STRONGER = /^(right|very|all|quite|really|proper|rather|pretty|a|bit|too|so|completely|totally)$/;

/** "gone weak", "shot through": "gone" leads on to what the thing has become. */
const settleGone = (chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] =>
  chunks.map((chunk, at) =>
    chunk.kind === 'condition' &&
    chunk.to === chunk.from + 1 &&
    tokens[chunk.from]?.word === 'gone' &&
    chunks[at + (STRONGER.test(tokens[chunk.to]?.word ?? '') ? 2 : 1)]?.kind === 'condition'
      ? { from: chunk.from, to: chunk.to, kind: 'copula' }
      : chunk,
  );

/** "once it's clean" tells a state, not what to do. */
function settleClean(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    const plain =
      chunk.kind === 'remedy' &&
      chunk.remedy === 'clean' &&
      tokens[chunk.from]?.word === 'clean' &&
      chunk.to === chunk.from + 1;
    return plain && chunks[at - 1]?.kind === 'copula'
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'clean' }
      : chunk;
  });
}

/** "a six volt machine", "quarter inch bolt": what kind of thing it is, not a reading. */
function settleKinds(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    if (chunk.kind !== 'measure') return chunk;
    const singular = /^(volt|v|amp|inch|gauge|watt|mm|foot|pint|gallon)$/.test(
      tokens[chunk.to - 1]?.word ?? '',
    );
    const next = chunks[at + 1];
    const kind =
      next?.kind === 'word'
        ? /^(machine|bike|system|electrics|set|job|conversion|one|ones|head|drive)$/.test(next.word)
        : next?.kind === 'part' && /^(volt|amp|gauge|inch|watt)$/.test(tokens[chunk.to - 1]?.word ?? '');
    return singular && kind ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'size' } : chunk;
  });
}

/** "the paint's original", "chrome pitted": the finish there is, not work to be done. */
function settleFinish(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    const noun =
      chunk.kind === 'process' &&
      chunk.to === chunk.from + 1 &&
      /^(paint|chrome|nickel|lacquer|plating|paintwork|polish|chroming|powder|enamel|lining|transfer|transfers)$/.test(
        tokens[chunk.from]?.word ?? '',
      );
    const next = chunks[at + 1];
    const told =
      next?.kind === 'condition' || (next?.kind === 'copula' && chunks[at + 2]?.kind !== 'process');
    return noun && told ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'finish' } : chunk;
  });
}

const SIDE_OF =
  /^(back|front|side|end|ends|top|bottom|inside|outside|edge|base|middle|centre|face|rear|corner|root)$/;

/** "the ring on the back of the headlamp": where on it doesn't matter here, it is on the headlamp. */
function collapseSides(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const dropped = new Set<number>();
  chunks.forEach((chunk, at) => {
    if (chunk.kind !== 'of' || dropped.has(at)) return;
    let next = at + 1;
    if (chunks[next]?.kind === 'article') next += 1;
    const side = chunks[next];
    const of = chunks[next + 1];
    if (
      side === undefined ||
      of?.kind !== 'of' ||
      tokens[of.from]?.word !== 'of' ||
      side.to !== side.from + 1
    )
      return;
    if (!SIDE_OF.test(tokens[side.from]?.word ?? '')) return;
    for (let index = at + 1; index <= next + 1; index += 1) dropped.add(index);
  });
  return chunks.filter((_, at) => !dropped.has(at));
}

/** Words before which "back" is a way, not a place: "came back", "put back". */
const GOES =
  /^(came|come|coming|comes|got|get|put|putting|went|goes|going|go|sent|send|sending|is|are|'s|was|were|'re|be|been|all|straight|right|it|them|that|those|drop|dropped|brought|bring|has|have|had|fold|bent|bend|knocked|pushed|not|and|then|now|due|here|safe|both|turned)$/;

/** "the back wheel", "wheel hop on the back": the rear, where nothing is brought back. */
function settleBack(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    if (tokens[chunk.from]?.word !== 'back' || chunk.to !== chunk.from + 1) return chunk;
    if (chunk.kind !== 'word' && chunk.kind !== 'act') return chunk;
    const before = tokens[chunk.from - 1]?.word ?? '';
    const led = /^(on|at|in)$/.test(tokens[chunk.from - 2]?.word ?? '') && before === 'the';
    const of = tokens[chunk.to]?.word === 'of';
    const names = chunks[at + 1]?.kind === 'part' && !GOES.test(before);
    return (led && !of) || names ? { from: chunk.from, to: chunk.to, kind: 'place', place: 'rear' } : chunk;
  });
}

/** "ring Penfold about the tyre": a call to make, no piston ring. */
function settleCalls(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at) => {
    const next = chunks[at + 1];
    const called =
      chunk.kind === 'part' &&
      chunk.said === 'ring' &&
      !chunk.plural &&
      (at === 0 || /^(word|break|of)$/.test(chunks[at - 1]?.kind ?? ''));
    const told = called && /^(to|'ll|must|please|gotta|should|and)$/.test(tokens[chunk.from - 1]?.word ?? '');
    const whom = next?.kind === 'article' && chunks[at + 2]?.kind === 'word';
    return called &&
      ((told && whom) ||
        next?.kind === 'supplier' ||
        next?.kind === 'owner' ||
        next?.kind === 'machine' ||
        next?.kind === 'word')
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'ring' }
      : chunk;
  });
}

/** "both ends" of brakes and tyres: front and rear. */
function settleEnds(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const ended = chunks.some(
    (chunk) => chunk.kind === 'part' && chunk.sides.includes('front') && chunk.sides.includes('rear'),
  );
  return chunks.map((chunk, at) => {
    const span = { from: chunk.from, to: chunk.to };
    const both = (one: Chunk | undefined): boolean => one?.kind === 'count' && one.both;
    const ends = (one: Chunk | undefined): boolean => tokens[one?.from ?? -1]?.word === 'ends';
    if (ended && both(chunk) && ends(chunks[at + 1])) return { ...span, kind: 'place', place: 'front' };
    if (ended && ends(chunk) && both(chunks[at - 1])) return { ...span, kind: 'place', place: 'rear' };
    return chunk;
  });
}

/** "bores look alright": good, where "alright, bores next" says nothing. */
const settleAlright: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const state =
      chunk.kind === 'aside' && /^(alright|fair enough|as good as)$/.test(tokens[chunk.from]?.word ?? '');
    const before = chunks[at - 1];
    return state && (before?.kind === 'copula' || before?.kind === 'part')
      ? { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'good' }
      : chunk;
  });

/** "no sign of wear": nothing is missing but the wear. */
const settleSign: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) =>
    chunk.kind === 'condition' &&
    chunk.condition === 'missing' &&
    /^(of|any)$/.test(tokens[chunk.to - 1]?.word ?? '') &&
    chunks[at + 1]?.kind === 'condition'
      ? { from: chunk.from, to: chunk.to, kind: 'denial' }
      : chunk,
  );

/** "the top end of the push rod": an end of it, no part of the engine. */
const settleEnd: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) =>
    chunk.kind === 'part' &&
    /^(topend|bottomend)$/.test(chunk.said) &&
    tokens[chunk.to]?.word === 'of' &&
    chunks[at + 1]?.kind === 'of'
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'end' }
      : chunk,
  );

/** Every step, in its order. */
export const STEPS: readonly Step[] = [
  step(settleAlright, 'alright'),
  step(settleEnd, 'of'),
  step(settleSign, 'of any'),
  step(settleRight, 'right'),
  step(settleSolid, 'solid'),
  step(settleWhere, 'where'),
  step(settleLeft, 'left'),
  step(settleValveSeat),
  step(settleExhaust),
  step(settleBack, 'back'),
  step(settleEnds, 'ends'),
  ...STANDING_STEPS,
  ...DECISION_STEPS,
  ...MEASURE_STEPS,
  ...TOLD_STEPS,
  ...FITTING_STEPS.map((settle) => step(settle)),
  step(settleRide),
  step(settleMiles, 'mile miles mi'),
  ...SENDING_STEPS.map((settle) => step(settle)),
  step(
    settleWork,
    'building build built rebuild rebuilt rebuilding laced trueing truing line lined lining linings seal sealed sealing relined reline relining',
  ),
  step(settleMeasured),
  step(settleClean, 'clean'),
  step(
    settleFinish,
    'paint chrome nickel lacquer plating paintwork polish chroming powder enamel lining transfer transfers',
  ),
  step(settleKinds, 'volt v amp inch gauge watt mm foot pint gallon'),
  step(settleGone, 'gone'),
  step(settleCalls, 'ring'),
  step(collapseSides, 'of'),
];

/** Words with two senses, settled by their company. */
export const settleSenses: Settle = settledBy(STEPS);
