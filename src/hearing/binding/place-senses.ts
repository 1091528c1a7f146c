import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import type { Settle } from './settle.js';

/** Words that "right" makes stronger: "worn right through". */
const RIGHT_ON =
  /^(through|round|around|across|along|down|up|into|by|where|next|beside|behind|under|underneath|above|over|off|out|away|back|against|inside|below|angle|angles|to|at|on|in)$/;

/** Words that follow a side as well: "the right of the tank". */
const RIGHT_BY = /^(between|near|for|about|of)$/;

/** What "right" makes stronger the state after: "gone right soft", "a right mess". */
const RIGHTLY = /^(gone|got|is|are|was|were|'s|'re|been|looks|look|a|have|has|had|it|them)$/;

/** Words before which "right" begins an answer: "right, gearbox is out". */
const opens = (chunk: Chunk | undefined): boolean =>
  chunk === undefined || (chunk.kind === 'break' && chunk.strength === 'full');

const isSide = (chunk: Chunk, side: 'left' | 'right', tokens: readonly Token[]): boolean =>
  chunk.kind === 'place' && chunk.to === chunk.from + 1 && tokens[chunk.from]?.word === side;

type Company = { before: Chunk | undefined; next: Chunk | undefined; sided: boolean };

/** "worn right through", "gone right soft": how far, how much, where it is no side after a pause: "left good, right in bits". */
function strengthens(chunk: Chunk, { before, next, sided }: Company, tokens: readonly Token[]): boolean {
  const paused = before?.kind === 'break' && (before.strength === 'full' || sided);
  const far = RIGHT_ON.test(wordAt(tokens, chunk.to)) && !(paused && next?.kind === 'of');
  const lead = wordAt(tokens, chunk.from - 1);
  const much = next?.kind === 'condition' || (lead === 'a' && next?.kind === 'word');
  return far || (RIGHTLY.test(lead) && much);
}

/** "right, the gearbox is out", "do it right", "worn right of the slot": no side where no side is contrasted. */
function speaksOfNoSide(chunk: Chunk, { before, next, sided }: Company, tokens: readonly Token[]): boolean {
  const led = before !== undefined && /^(article|place|of|and)$/.test(before.kind);
  if (led || sided) return false;
  if (opens(before) && next?.kind === 'article') return true;
  const near = RIGHT_BY.test(wordAt(tokens, chunk.to)) && !(opens(before) && next?.kind === 'of');
  const well = before?.kind === 'pronoun' || before?.kind === 'copula';
  const strong = before?.kind === 'condition' && (next?.kind === 'condition' || next?.kind === 'word');
  return near || well || strong;
}

/** "worn right through", "right where it runs", "do it right": no side, but how far or how well. */
export const settleRight: Settle = (chunks, tokens) => {
  const sided = chunks.some((chunk) => chunk.kind === 'place' && tokens[chunk.from]?.word === 'left');
  return chunks.map((chunk, at) => {
    if (!isSide(chunk, 'right', tokens) || tokens[chunk.from - 1]?.word === 'the') return chunk;
    const company = { before: chunks[at - 1], next: chunks[at + 1], sided };
    return strengthens(chunk, company, tokens) || speaksOfNoSide(chunk, company, tokens)
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'right' }
      : chunk;
  });
};

const SHEETS =
  /^(mudguard|petrol tank|oil tank|tool box|chain guard|side panel|frame|seat base|saddle|silencer|exhaust|primary chaincase|battery box|number plate|fairing|sidecar|stand|wheel rim)/;

/** "fender solid", "rusty but solid": sound, where a thing that moves would be stuck. */
export const settleSolid: Settle = (chunks, tokens) => {
  const named = chunks.filter((chunk) => chunk.kind === 'part');
  return chunks.map((chunk) => {
    if (chunk.kind !== 'condition' || chunk.to !== chunk.from + 1 || tokens[chunk.from]?.word !== 'solid')
      return chunk;
    const last = named.findLast((one) => one.to <= chunk.from);
    const but = /^(but|still|though|yet|itself|quite|good)$/.test(wordAt(tokens, chunk.from - 1));
    return but || (last !== undefined && SHEETS.test(last.part))
      ? { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'good' }
      : chunk;
  });
};

const MEETS =
  /^(bolts?|fits?|goes|go|joins?|meets?|sits?|mounts?|runs?|rubs?|touches|screws?|clips?|enters?|slides?|seats?|bears?|passes|comes?|fixes|attaches|slots?|hooks?|rests?|sat|ran|rubbed|fitted|been)$/;

/** "cracked where the tank bolts on": where it meets another thing, which nothing is told of. */
export const settleWhere: Settle = (chunks, tokens) => {
  const at = chunks.findIndex(
    (chunk, index) => index > 0 && tokens[chunk.from]?.word === 'where' && chunk.to === chunk.from + 1,
  );
  const from = chunks[at]?.from;
  if (from === undefined) return [...chunks];
  const verb = tokens.findIndex(
    (token, index) =>
      index > from + 1 && index <= from + 6 && token.kind === 'word' && MEETS.test(token.word),
  );
  const stops = tokens.slice(from, verb).some(({ kind }) => kind === 'mark');
  if (verb < 0 || stops) return [...chunks];
  const end = /^(on|in|up|to|through|round|into|over|it|them|there)$/.test(wordAt(tokens, verb + 1))
    ? verb + 2
    : verb + 1;
  return chunks.filter((chunk) => chunk.from < from || chunk.from >= end);
};

/** What can be left: "no float left", "nothing left on it". */
const LEFT_OVER =
  /^(float|life|meat|thread|threads|tread|play|none|nothing|much|any|wear|lining|linings|adjustment|material|chrome|paint|metal|few|more|plenty|lots|rubber|cork|brass|tension|spring|bit|clearance|slack|teeth|movement|silvering|plating|compression|oil)$/;

/** "left both guards with the painter": left there, no side. "no float left": nor this. */
export const settleLeft: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (!isSide(chunk, 'left', tokens)) return chunk;
    const next = chunks[at + 1];
    const lead = wordAt(tokens, chunk.from - 1);
    // "rear bearings I've left", "I left it"
    if (/^(i|we|he|she|they|'ve|have|has|'d)$/.test(lead))
      return { from: chunk.from, to: chunk.to, kind: 'word', word: 'left' };
    const object =
      next?.kind === 'article' || next?.kind === 'pronoun' || (next?.kind === 'count' && next.both);
    const over = LEFT_OVER.test(lead) && next?.kind !== 'part';
    return over || (object && lead !== 'the')
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'left' }
      : chunk;
  });
