import type { Chunk } from '../tagging/chunk.js';
import type { Settle } from './settle.js';

/** Words that "right" makes stronger: "worn right through", "gone right soft". */
const FURTHER =
  /^(through|round|around|where|up|down|across|along|at|in|into|to|off|out|back|by|on|over|under|under|between|behind|inside|next|near|beside|for|about|away|of)$/;

/** Words before which "right" begins an answer: "right, gearbox is out". */
const opens = (chunk: Chunk | undefined): boolean =>
  chunk === undefined || (chunk.kind === 'break' && chunk.strength === 'full');

/** "worn right through", "right where it runs", "do it right": no side, but how far or how well. */
export const settleRight: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'place' || chunk.to !== chunk.from + 1 || tokens[chunk.from]?.word !== 'right')
      return chunk;
    const [before, next] = [chunks[at - 1], chunks[at + 1]];
    const following = tokens[chunk.to]?.word ?? '';
    const led =
      before?.kind === 'article' ||
      before?.kind === 'place' ||
      before?.kind === 'of' ||
      before?.kind === 'and';
    const sided = chunks.some((other) => other.kind === 'place' && tokens[other.from]?.word === 'left');
    if (led || sided) return chunk;
    if (opens(before) && next?.kind === 'article')
      return { from: chunk.from, to: chunk.to, kind: 'word', word: 'right' };
    const told = before?.kind === 'condition' || before?.kind === 'copula' || before?.kind === 'pronoun';
    const further = FURTHER.test(following) && (!opens(before) || next?.kind !== 'of');
    const well = before?.kind === 'pronoun' || before?.kind === 'copula';
    const strong = told && (next?.kind === 'condition' || next?.kind === 'word');
    return further || well || strong
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'right' }
      : chunk;
  });

const SHEETS =
  /^(mudguard|petrol tank|oil tank|tool box|chain guard|side panel|frame|seat base|saddle|silencer|exhaust|primary chaincase|battery box|number plate|fairing|sidecar|stand|wheel rim)/;

/** "fender solid", "rusty but solid": sound, where a thing that moves would be stuck. */
export const settleSolid: Settle = (chunks, tokens) => {
  const named = chunks.filter((chunk) => chunk.kind === 'part');
  return chunks.map((chunk) => {
    if (chunk.kind !== 'condition' || chunk.to !== chunk.from + 1 || tokens[chunk.from]?.word !== 'solid')
      return chunk;
    const last = named.findLast((one) => one.to <= chunk.from);
    const but = /^(but|still|though|yet|itself|quite|good)$/.test(tokens[chunk.from - 1]?.word ?? '');
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
  const end = /^(on|in|up|to|through|round|into|over|it|them|there)$/.test(tokens[verb + 1]?.word ?? '')
    ? verb + 2
    : verb + 1;
  return chunks.filter((chunk) => chunk.from < from || chunk.from >= end);
};

/** What can be left: "no float left", "nothing left on it". */
const LEFT_OVER =
  /^(float|life|meat|thread|threads|tread|play|none|nothing|nowt|much|any|wear|lining|linings|adjustment|material|chrome|paint|metal|few|more|plenty|lots|rubber|cork|brass|tension|spring|bit|clearance|slack|teeth|movement|silvering|plating|compression|oil)$/;

/** "left both guards with the painter": left there, no side. "no float left": nor this. */
export const settleLeft: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const plain =
      chunk.kind === 'place' && chunk.to === chunk.from + 1 && tokens[chunk.from]?.word === 'left';
    const next = chunks[at + 1];
    const object =
      (next?.kind === 'count' && next.both) || next?.kind === 'article' || next?.kind === 'pronoun';
    const subject =
      opens(chunks[at - 1]) || /^(i|i've|we|he|'ve|and|then)$/.test(tokens[chunk.from - 1]?.word ?? '');
    const over = LEFT_OVER.test(tokens[chunk.from - 1]?.word ?? '') && next?.kind !== 'part';
    return plain && (over || (object && subject))
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'left' }
      : chunk;
  });
