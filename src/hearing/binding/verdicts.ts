import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import type { Settle } from './settle.js';

const UNFIT = /^(useless|hopeless|unusable|unacceptable|rubbish|dreadful|diabolical|shocking)$/;
const UNHAPPY = /^(happy|impressed|pleased|acceptable|good|use|usable|having|accepting|standing|satisfied)$/;

/** "no good to us", "not impressed", "useless": what came back won't do. */
function unfit(tokens: readonly Token[], from: number): boolean {
  const [first, second, third] = [from, from + 1, from + 2].map((at) => tokens[at]?.word ?? '');
  if (UNFIT.test(first ?? '')) return true;
  if (!/^(no|not|isn't|ain't|aren't)$/.test(first ?? '')) return false;
  const verdict = /^(very|at|really|too|any|much|a)$/.test(second ?? '') ? third : second;
  return UNHAPPY.test(verdict ?? '');
}

/** "back from the chromer, no good to us": of what has come back, a word that it won't do refuses it. */
export const settleVerdicts: Settle = (chunks, tokens) => {
  const returned = chunks.findIndex((chunk) => chunk.kind === 'act' && chunk.act === 'back');
  if (returned < 0) return [...chunks];
  return chunks.map((chunk, at): Chunk => {
    const open =
      /^(word|denial|condition)$/.test(chunk.kind) || (chunk.kind === 'act' && chunk.act === 'tested');
    return at > returned && open && unfit(tokens, chunk.from)
      ? { from: chunk.from, to: chunk.to, kind: 'act', act: 'back', outcome: 'refused' }
      : chunk;
  });
};
