import { isNominal } from '../amounts/nominal.js';
import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';

const ABOUT =
  /^(about|around|roughly|approx|say|maybe|circa|near|nearly|~|another|just|only|under|over|up|to|for|at|it's|with|a|the|is|will|be|cost|of|round|somewhere|wants|want|asking|quotes|quoted|charges|charged)$/;
const ROUGH = /^(about|around|roughly|approx|say|maybe|circa|near|nearly|~|round|somewhere)$/;
/** What a sum may be the price of, or is named beside. */
const PRICED = new Set<Chunk['kind']>(['process', 'supplier', 'remedy', 'owner', 'money']);

const figureAt = (chunk: Chunk | undefined, tokens: readonly Token[]): number | null => {
  const token = chunk === undefined ? undefined : tokens[chunk.from];
  const plain =
    chunk !== undefined &&
    (chunk.kind === 'word' || (chunk.kind === 'count' && !chunk.both)) &&
    chunk.to === chunk.from + 1;
  return plain && token?.kind === 'number' && token.ordinal !== true && !token.text.includes('/')
    ? (token.value ?? null)
    : null;
};

/** "85 at the paint man", "140 from the dealer": with whom it is paid. */
const paidTo = (chunks: readonly Chunk[], at: number): boolean =>
  chunks[at]?.kind === 'supplier' || (chunks[at]?.kind === 'of' && chunks[at + 1]?.kind === 'supplier');

/** "120 he says": the sum is said by whoever asks it. */
const says = (chunk: Chunk | undefined): boolean => chunk?.kind === 'act' && chunk.act === 'promised';

const closes = (chunk: Chunk | undefined, tokens: readonly Token[]): boolean =>
  chunk === undefined ||
  says(chunk) ||
  chunk.kind === 'break' ||
  (chunk.kind === 'count' && chunk.to - chunk.from > 1 && tokens[chunk.from]?.word === 'the') ||
  chunk.kind === 'date' ||
  chunk.kind === 'and' ||
  (chunk.kind === 'of' && tokens[chunk.from]?.word === 'for');

/** Pounds below which a bare figure is as likely a count; found on the tuning corpora. */
const LEAST_SUM = 10;

/** A figure with no unit that ends a clause, after work, a supplier or an owner's yes, is a sum: "send it to Crale, about 220". */
export function bareSums(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  return chunks.map((chunk, at): Chunk => {
    const amount = figureAt(chunk, tokens);
    const pence = /^\d+\.\d\d$/.test(tokens[chunk.from]?.text ?? '');
    if (
      amount === null ||
      (amount < LEAST_SUM && !pence) ||
      !Number.isInteger(Number((amount * 100).toFixed(6))) ||
      !(closes(chunks[at + 1], tokens) || paidTo(chunks, at + 1))
    )
      return chunk;
    // "regrind to -10": an undersize. "ordered 56 from the bearing man": how many.
    const [sign, led] = [tokens[chunk.from - 1], chunks[at - 1]];
    if (sign?.text === '-' || sign?.text === '+') return chunk;
    if (led?.kind === 'act' && led.act === 'ordered' && paidTo(chunks, at + 1)) return chunk;
    let back = at - 1;
    let about = false;
    while (back >= 0) {
      const word = wordAt(tokens, chunks[back]?.from ?? 0);
      const one = chunks[back];
      if (
        one?.kind === 'break' ||
        one?.kind === 'article' ||
        one?.kind === 'pronoun' ||
        (says(one) && chunks[back - 1]?.kind === 'supplier') ||
        (one !== undefined && one.to === one.from + 1 && !PRICED.has(one.kind) && ABOUT.test(word))
      ) {
        about ||= ROUGH.test(word);
        back -= 1;
      } else break;
    }
    const priced = chunks[back];
    const agreed =
      priced?.kind === 'act' &&
      (priced.act === 'agreed' || priced.act === 'ordered' || priced.act === 'sent');
    const bought =
      pence &&
      chunks
        .slice(Math.max(0, at - 6), at)
        .some(
          (one) =>
            one.kind === 'remedy' || one.kind === 'supplier' || (one.kind === 'act' && one.act === 'ordered'),
        );
    // "item 8: 22 quid, item 9: 30"
    const listed = priced?.kind === 'item' && chunks.slice(0, at).some((one) => one.kind === 'money');
    // "new carb 140 from the dealer"
    const offered =
      paidTo(chunks, at + 1) &&
      chunks
        .slice(Math.max(0, at - 4), at)
        .some(
          (one) =>
            /^(remedy|process|condition)$/.test(one.kind) || (one.kind === 'act' && one.act !== 'back'),
        );
    // "new tyre, 65": of things that are not sold by a size.
    const renewed =
      chunks[at - 1]?.kind === 'break' &&
      (chunks[at + 1] === undefined || chunks[at + 1]?.kind === 'break') &&
      priced?.kind === 'part' &&
      !/jet|needle|plug|sprocket|chain|tooth|teeth|bulb/.test(priced.part) &&
      chunks
        .slice(Math.max(0, back - 3), back)
        .some((one) => one.kind === 'remedy' && one.remedy === 'replace');
    if (
      priced === undefined ||
      !(PRICED.has(priced.kind) || agreed || about || bought || listed || offered || renewed)
    )
      return chunk;
    // "thinking about the seat at 190"
    const asked =
      agreed &&
      wordAt(tokens, chunk.from - 1) === 'at' &&
      chunks.slice(0, at).some((one) => one.kind === 'owner');
    if (!asked && /^(at|gap|clearance|bag|box|tin|item|number)$/.test(wordAt(tokens, chunk.from - 1)))
      return chunk;
    const from = about ? (chunks[back + 1]?.from ?? chunk.from) : chunk.from;
    const sure = PRICED.has(priced.kind) || agreed || bought || offered;
    return {
      kind: 'money',
      from: Math.max(from, priced.to),
      to: chunk.to,
      cost: { amount, currency: 'GBP', about, each: false, vat: null },
      pieces: null,
      together: false,
      sure,
    };
  });
}

/** "the rear to 24", "pinch bolt to 15", "and 10 up and down", "130 drive side", after a measure: of the same kind. */
function runsOn(
  chunks: readonly Chunk[],
  at: number,
  since: readonly Chunk[],
  tokens: readonly Token[],
): boolean {
  const [led, next] = [chunks[at - 1], chunks[at + 1]];
  const subject = chunks[at - 2]?.kind === 'copula' ? chunks[at - 3] : chunks[at - 2];
  const ends = next === undefined || next.kind === 'break' || next.kind === 'and';
  const toIt =
    led?.kind === 'of' &&
    /^(to|at)$/.test(wordAt(tokens, led.from)) &&
    /^(part|place|quantity|pronoun)$/.test(subject?.kind ?? '');
  const listed = led?.kind === 'and' || (led?.kind === 'break' && led.strength === 'comma');
  const located =
    (next?.kind === 'place' && chunks[at + 2]?.kind !== 'part') ||
    (next?.kind === 'of' &&
      /^(at|on)$/.test(wordAt(tokens, next.from)) &&
      chunks[at + 2]?.kind !== 'machine') ||
    (next?.kind === 'quantity' && next.to - next.from > 1);
  const stopped = since.some((one) => one.kind === 'break' && one.strength === 'full');
  // "gap was 40 thou; reset to 22"
  if (led?.kind === 'act' && led.act === 'fitted' && tokens[led.to - 1]?.word === 'to' && ends) return true;
  if (stopped) return false;
  return (toIt && ends) || (listed && located);
}

/** Whole figures told of a clearance without a unit are thou; more than this is no clearance. Common practice, no source. */
const MOST_CLEARANCE = 60;

/** "valve clearances 3 inlet 5 exhaust", "end float 8": thou, as a clearance is told. */
function isClearance(chunks: readonly Chunk[], at: number, value: number, said: readonly Chunk[]): boolean {
  const since = said.slice(said.findLastIndex((one) => one.kind === 'break' && one.strength === 'full') + 1);
  const told = since.findLast((one) => one.kind === 'quantity');
  const next = chunks[at + 1];
  const closed = next === undefined || /^(break|and|place|remedy|condition|date)$/.test(next.kind);
  const led = /^(quantity|place|of|copula|and)$/.test(chunks[at - 1]?.kind ?? '');
  return (
    told?.kind === 'quantity' &&
    /^(clearance|gap|end-float|runout)$/.test(told.quantity) &&
    Number.isInteger(value) &&
    value > 0 &&
    value <= MOST_CLEARANCE &&
    closed &&
    led
  );
}

const QUANTITY_PARTS = /bore|gap|tyre|points|ring/;

/** A figure without a unit beside a word of measuring ("bore's 70.5"), or beside a measure ("front 22 psi, rear 26"). */
export function bareMeasures(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const out: Chunk[] = [];
  chunks.forEach((chunk, at) => {
    const value = figureAt(chunk, tokens);
    if (value === null || isNominal(tokens, chunk)) {
      out.push(chunk);
      return;
    }
    const decimal = tokens[chunk.from]?.text.includes('.') === true;
    const recent = out.slice(-6);
    const measure = recent.findLast((one) => one.kind === 'measure');
    const quantity = recent.findLast((one) => one.kind === 'quantity');
    const part = recent.findLast((one) => one.kind === 'part');
    const parallel =
      measure !== undefined &&
      (chunks[at - 1]?.kind === 'place' ||
        chunks[at - 1]?.kind === 'correction' ||
        chunks[at - 2]?.kind === 'correction' ||
        chunks[at - 2]?.kind === 'denial') &&
      !/part/.test(chunks[at + 1]?.kind ?? '');
    const gapped =
      measure !== undefined &&
      chunks[at - 1]?.kind === 'of' &&
      tokens[chunk.from - 1]?.word === 'at' &&
      (chunks[at - 2]?.kind === 'quantity' || chunks[at - 2]?.kind === 'part') &&
      (chunks[at + 1] === undefined || chunks[at + 1]?.kind === 'break' || chunks[at + 1]?.kind === 'and');
    const running =
      measure !== undefined && runsOn(chunks, at, out.slice(out.lastIndexOf(measure) + 1), tokens);
    const fine = /\.\d{2,}$|^\d{2,}\.\d$/.test(tokens[chunk.from]?.text ?? '');
    const named =
      decimal &&
      (quantity !== undefined ||
        measure !== undefined ||
        (fine &&
          part?.kind === 'part' &&
          part.quantities.length > 0 &&
          chunks[at - 1] !== undefined &&
          /^(part|copula|of|break)$/.test(chunks[at - 1]?.kind ?? '') &&
          chunks[at - 1]?.kind !== 'break') ||
        (part?.kind === 'part' && QUANTITY_PARTS.test(part.part)));
    if (measure?.kind === 'measure' && (parallel || gapped || running || (decimal && named)))
      out.push({
        kind: 'measure',
        from: chunk.from,
        to: chunk.to,
        value,
        unit: measure.unit,
        quantity: measure.quantity,
      });
    else if (!decimal && isClearance(chunks, at, value, recent))
      out.push({ kind: 'measure', from: chunk.from, to: chunk.to, value, unit: 'thou', quantity: null });
    else if (named)
      out.push({
        kind: 'measure',
        from: chunk.from,
        to: chunk.to,
        value,
        unit:
          value < 4 && !(quantity?.kind === 'quantity' && quantity.quantity === 'gap' && value >= 0.2)
            ? 'in'
            : 'mm',
        quantity:
          quantity?.kind === 'quantity'
            ? quantity.quantity
            : part?.kind === 'part' && !/bore/.test(part.part)
              ? null
              : 'bore',
      });
    else out.push(chunk);
  });
  return out;
}
