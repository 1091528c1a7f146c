import type { Token } from '../text/tokens.js';
import type { Chunk } from '../tagging/chunk.js';
import { wordAt } from '../text/word-at.js';

/** "not worn" says that the part is good; "no wear" only that none was seen. */
const OF_STATE = /^(not|isn't|aren't|wasn't|weren't|ain't|never)$/;

const joins = (chunk: Chunk | undefined): boolean =>
  chunk !== undefined &&
  (chunk.kind === 'article' ||
    chunk.kind === 'copula' ||
    chunk.kind === 'also' ||
    (chunk.kind === 'word' && !/^\d/.test(chunk.word)) ||
    chunk.kind === 'place' ||
    chunk.kind === 'quantity');

const list = (chunk: Chunk | undefined, tokens: readonly Token[]): boolean =>
  chunk !== undefined &&
  (chunk.kind === 'word' || chunk.kind === 'and' || (chunk.kind === 'break' && chunk.strength === 'comma')) &&
  /^(or|nor|and|,|&)$/.test(wordAt(tokens, chunk.from));

/** Takes out what is denied, and leaves `good` where a state is: "no cracks" adds no condition. */
export function applyDenials(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const out: Chunk[] = [];
  for (let at = 0; at < chunks.length; at += 1) {
    const chunk = chunks[at];
    if (chunk === undefined) break;
    if (chunk.kind !== 'denial') {
      out.push(chunk);
      continue;
    }
    let next = at + 1;
    let skipped = 0;
    while (joins(chunks[next]) && skipped < 3) {
      next += 1;
      skipped += 1;
    }
    const denied = chunks[next];
    if (denied?.kind === 'part' && lacks(chunks, at, next, tokens)) {
      out.push({ kind: 'condition', from: chunk.from, to: chunk.to, condition: 'missing' });
      continue;
    }
    if (denied === undefined || !/^(condition|remedy|process|act)$/.test(denied.kind)) {
      out.push(chunk);
      continue;
    }
    const places = chunks.slice(at + 1, next).filter((one) => one.kind === 'place');
    const state = OF_STATE.test(wordAt(tokens, chunk.to - 1)) || OF_STATE.test(wordAt(tokens, chunk.from));
    out.push({ ...chunk }, ...places);
    if (denied.kind === 'condition') {
      const plainly = tokens[denied.from]?.word !== 'acceptable';
      if (denied.condition === 'good' && plainly)
        out.push({ kind: 'condition', from: denied.from, to: denied.to, condition: 'worn' });
      else if (state && isAdjective(denied, tokens))
        out.push({ kind: 'condition', from: denied.from, to: denied.to, condition: 'good' });
    }
    at = next;
    // "no cracks, pits or dents": the denial runs on through an "or".
    while (
      list(chunks[at + 1], tokens) &&
      chunks[at + 2]?.kind === 'condition' &&
      /^(or|nor|,)$/.test(wordAt(tokens, chunks[at + 1]?.from ?? 0)) &&
      (tokens[chunks[at + 1]?.from ?? 0]?.word !== ',' || runsToOr(chunks, at + 1, tokens))
    )
      at += 2;
  }
  return out;
}

/** "there's no tab washer under it", "but no circlips": the thing isn't there. */
function lacks(chunks: readonly Chunk[], at: number, part: number, tokens: readonly Token[]): boolean {
  const from = chunks[at]?.from ?? 0;
  if (tokens[from]?.word !== 'no' || chunks[at]?.to !== from + 1) return false;
  if (chunks.slice(at + 1, part).some((one) => one.kind === 'copula' || one.kind === 'quantity'))
    return false;
  const before = chunks[at - 1];
  const led =
    before === undefined ||
    before.kind === 'break' ||
    before.kind === 'and' ||
    /^('s|is|are|but|with|had|has|got|been|there|found)$/.test(wordAt(tokens, from - 1));
  const after = chunks[part + 1];
  const told = after?.kind === 'condition' || after?.kind === 'measure' || after?.kind === 'part';
  return led && !told && tokens[from - 1]?.text !== ':';
}

const isAdjective = (chunk: Chunk, tokens: readonly Token[]): boolean =>
  /(ed|en|nt|ly|y|rn|se|t|ng|al|ose|ight)$/.test(wordAt(tokens, chunk.to - 1)) &&
  !/s$/.test(wordAt(tokens, chunk.to - 1));

function runsToOr(chunks: readonly Chunk[], at: number, tokens: readonly Token[]): boolean {
  for (let next = at; next < chunks.length; next += 2) {
    const word = wordAt(tokens, chunks[next]?.from ?? 0);
    if (/^(or|nor)$/.test(word)) return true;
    if (word !== ',' || chunks[next + 1]?.kind !== 'condition') return false;
  }
  return false;
}
