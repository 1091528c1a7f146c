import type { Chunk, PartMeaning } from '../tagging/chunk.js';
import { unknownPart } from '../tagging/part-index.js';
import type { Settle } from './settle.js';

const after = (chunks: readonly Chunk[], at: number): Chunk | undefined => {
  const next = chunks[at + 1];
  return next?.kind === 'word' && /^(side|one|ones)$/.test(next.word) ? chunks[at + 2] : next;
};

const sided = (chunk: Chunk | undefined): chunk is Chunk & PartMeaning =>
  chunk?.kind === 'part' && chunk.sides.includes('exhaust');

/** "exhaust seat burnt": the valve's seat, no saddle. */
export const settleValveSeat: Settle = (chunks) =>
  chunks.map((chunk, at) => {
    const before = chunks[at - 1];
    const side =
      (before?.kind === 'part' && /^(exhaust|inlet|intake)$/.test(before.said)) ||
      (before?.kind === 'place' && /^(exhaust|inlet)$/.test(before.place));
    return chunk.kind === 'part' && chunk.said === 'seat' && side
      ? { from: chunk.from, to: chunk.to, ...unknownPart('valve seat', chunk.plural, true) }
      : chunk;
  });

/** "exhaust" is the pipe or the side of a valve: the side where a thing with such sides follows, or went before. */
export function settleExhaust(chunks: readonly Chunk[]): Chunk[] {
  const aboutValves = chunks.some(sided);
  return chunks.map((chunk, at) => {
    if (chunk.kind !== 'part' || !/^(exhaust|inlet|intake)$/.test(chunk.said)) return chunk;
    const before = chunks.slice(0, at).some(sided);
    const contrast =
      chunks.some((other) => other.kind === 'place' && other.place === 'inlet') || chunk.said !== 'exhaust';
    const linked =
      chunks[at + 1]?.kind === 'break' ||
      chunks[at + 1]?.kind === 'denial' ||
      chunks[at + 1]?.kind === 'correction' ||
      chunks[at + 1]?.kind === 'and';
    const place =
      sided(after(chunks, at)) || (aboutValves && (contrast || before)) || (aboutValves && linked);
    return place
      ? {
          from: chunk.from,
          to: chunk.to,
          kind: 'place',
          place: chunk.said === 'exhaust' ? 'exhaust' : 'inlet',
        }
      : chunk;
  });
}
