import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import type { Settle } from './settle.js';

const isSent = (chunk: Chunk): boolean =>
  (chunk.kind === 'act' && chunk.act === 'sent') || (chunk.kind === 'remedy' && chunk.remedy === 'send-out');

/** "new", "a new", "another": no more of a decision than that. */
const isNew = (chunk: Chunk | undefined, tokens: readonly Token[]): boolean =>
  chunk?.kind === 'remedy' &&
  chunk.remedy === 'replace' &&
  /^(new|another)$/.test(tokens[chunk.to - 1]?.word ?? '') &&
  chunk.to - chunk.from <= 2;

/** "took both wheels to Lonny's, new spokes", "gone to Marlpit for new ends": what they are to get there, no thing sent or wanted here. */
function settleToGet(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const out: (Chunk | null)[] = [...chunks];
  let start = 0;
  chunks.forEach((chunk, at) => {
    if (chunk.kind === 'break' && chunk.strength === 'full') start = at + 1;
    const comma = chunk.kind === 'break' && chunk.strength === 'comma';
    const leads = comma || (chunk.kind === 'of' && /^(for|to)$/.test(tokens[chunk.from]?.word ?? ''));
    if (!leads || !isNew(chunks[at + 1], tokens) || chunks[at + 2]?.kind !== 'part') return;
    const run = chunks.slice(start, at);
    const sent = run.findLastIndex(isSent);
    const to = run.some((one) => one.kind === 'supplier');
    const fault = run.some((one) => one.kind === 'condition');
    const after = chunks[at + 3];
    const ends = after === undefined || /^(break|and|money)$/.test(after.kind);
    const settled = run.some((one) => one.kind === 'act' && one.act === 'sent') || sent < 0;
    if (sent < 0 && !sentBy(run, tokens)) return;
    if (!to || !ends || (comma && (fault || !settled))) return;
    out[at + 1] = null;
    out[at + 2] = { from: chunks[at + 2]?.from ?? 0, to: chunks[at + 2]?.to ?? 0, kind: 'word', word: 'new' };
  });
  return out.filter((chunk) => chunk !== null);
}

/** "took the wheels to Lonny's": sent, in words that stand apart. */
const sentBy = (run: readonly Chunk[], tokens: readonly Token[]): boolean =>
  run.some((chunk, at) => {
    const verb = chunk.kind === 'word' && /^(took|taken|ran|dropped|carried|drove|left)$/.test(chunk.word);
    const to = run.slice(at).find((one) => one.kind === 'supplier');
    return (
      verb && to !== undefined && /^(to|at|with|round|over|down|up)$/.test(tokens[to.from - 1]?.word ?? '')
    );
  });

/** "magneto's dead, no spark either side": where on it, no number of things. */
const settleEither: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const beside = [chunks[at - 1], chunks[at + 1]].some(
      (one) => one?.kind === 'part' || one?.kind === 'copula',
    );
    return chunk.kind === 'count' && tokens[chunk.from]?.word === 'either' && !beside
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'either' }
      : chunk;
  });

/** "found one on the shelf": there is one; nothing was put there. */
const settleFound: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) =>
    chunk.kind === 'stored' &&
    chunks
      .slice(Math.max(0, at - 3), at)
      .some((one) => /^(found|got|have|there)$/.test(tokens[one.from]?.word ?? '')) &&
    /^(one|another|some|a|spare|spares)$/.test(
      tokens[chunk.from - (/^(on|in|at)$/.test(tokens[chunk.from - 1]?.word ?? '') ? 2 : 1)]?.word ?? '',
    )
      ? { from: chunk.from, to: chunk.to, kind: 'word', word: 'there' }
      : chunk,
  );

/** "took it down the plater": there, not apart. */
const settleTookDown: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) =>
    chunk.kind === 'act' &&
    chunk.act === 'stripped' &&
    /^(took|taken|ran|run)$/.test(tokens[chunk.from]?.word ?? '') &&
    tokens[chunk.to - 1]?.word === 'down' &&
    chunks[at + 1]?.kind === 'supplier'
      ? { ...chunk, act: 'sent' }
      : chunk,
  );

/** Words of what goes out and comes back, settled by their company. */
export const SENDING_STEPS: readonly Settle[] = [settleToGet, settleEither, settleFound, settleTookDown];
