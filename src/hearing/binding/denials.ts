import type { Token } from '../text/tokens.js';
import type { Chunk } from '../tagging/chunk.js';

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
  /^(or|nor|and|,|&)$/.test(tokens[chunk.from]?.word ?? '');

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
    if (denied === undefined || !/^(condition|remedy|process|act)$/.test(denied.kind)) {
      out.push(chunk);
      continue;
    }
    const places = chunks.slice(at + 1, next).filter((one) => one.kind === 'place');
    const state =
      OF_STATE.test(tokens[chunk.to - 1]?.word ?? '') || OF_STATE.test(tokens[chunk.from]?.word ?? '');
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
      /^(or|nor|,)$/.test(tokens[chunks[at + 1]?.from ?? 0]?.word ?? '') &&
      (tokens[chunks[at + 1]?.from ?? 0]?.word !== ',' || runsToOr(chunks, at + 1, tokens))
    )
      at += 2;
  }
  return out;
}

const isAdjective = (chunk: Chunk, tokens: readonly Token[]): boolean =>
  /(ed|en|nt|ly|y|rn|se|t|ng|al|ose|ight)$/.test(tokens[chunk.to - 1]?.word ?? '') &&
  !/s$/.test(tokens[chunk.to - 1]?.word ?? '');

function runsToOr(chunks: readonly Chunk[], at: number, tokens: readonly Token[]): boolean {
  for (let next = at; next < chunks.length; next += 2) {
    const word = tokens[chunks[next]?.from ?? 0]?.word ?? '';
    if (/^(or|nor)$/.test(word)) return true;
    if (word !== ',' || chunks[next + 1]?.kind !== 'condition') return false;
  }
  return false;
}
