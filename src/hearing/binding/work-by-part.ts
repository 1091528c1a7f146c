import type { Process } from '../../trade/terms.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';

/** Work that is named by what it is done to: "building" a wheel, "lining" a tank. */
const BY_PART: [works: RegExp, part: RegExp, process: Process][] = [
  [
    /^(building|build|built|rebuild|rebuilt|rebuilding|laced|trueing|truing)$/,
    /^(wheel|wheel rim|rim|spoke)$/,
    'wheel-build',
  ],
  [
    /^(line|lined|lining|seal|sealed|sealing|relined|reline|relining)$/,
    /^(petrol tank|oil tank|tank)$/,
    'line-tank',
  ],
  [/^(line|lined|lining|linings)$/, /^brake shoe$/, 'reline'],
];

/** Part of a longer name, or something that is told of: no work. */
const named = (chunks: readonly Chunk[], at: number): boolean =>
  chunks[at - 1]?.kind === 'part' || /^(condition|copula|part)$/.test(chunks[at + 1]?.kind ?? '');

/** The part that a work is said of: right beside it, the articles aside; null where none is. */
function nearestPart(chunks: readonly Chunk[], at: number, tokens: readonly Token[]): string | null {
  const beside = /^(article|place|count|copula|denial)$/;
  for (const way of [-1, 1]) {
    let next = at + way;
    while (
      beside.test(chunks[next]?.kind ?? '') ||
      /^(needs?|wants?|to)$/.test(tokens[chunks[next]?.from ?? -1]?.word ?? '')
    )
      next += way;
    const one = chunks[next];
    if (one?.kind === 'part') return one.part;
  }
  return null;
}

export function settleWork(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const parts = chunks
    .filter((chunk): chunk is ChunkOf<'part'> => chunk.kind === 'part')
    .map((chunk) => chunk.part);
  return chunks.map((chunk, at) => {
    if (
      chunk.kind !== 'process' &&
      chunk.kind !== 'word' &&
      chunk.kind !== 'act' &&
      !(chunk.kind === 'part' && parts.length > 1 && !named(chunks, at))
    )
      return chunk;
    const led = tokens[chunk.from]?.word === 'a' ? 1 : 0;
    const word = chunk.to === chunk.from + 1 + led ? (tokens[chunk.from + led]?.word ?? '') : '';
    const near = nearestPart(chunks, at, tokens);
    const found = BY_PART.find(
      ([works, part]) => works.test(word) && (near === null ? parts : [near]).some((one) => part.test(one)),
    );
    return found === undefined
      ? chunk
      : { from: chunk.from, to: chunk.to, kind: 'process', process: found[2], doer: 'out' };
  });
}
