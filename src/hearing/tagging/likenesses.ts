import type { Token } from '../text/tokens.js';
import { wordAt as word } from '../text/word-at.js';
import type { Chunk } from './chunk.js';

/** "looks like a crack", "something like a biscuit tin": no likeness, but what is seen or where it is. */
const SEEN =
  /^(look|looks|looked|looking|feel|feels|felt|seem|seems|sound|sounds|sounded|is|are|'s|was|something|more|much|would|'d|i|just|not|nothing)$/;
/** With these a likeness ends and the telling goes on. */
const ON =
  /^(so|and|but|i|it|he|she|we|they|them|send|get|needs?|wants?|new|replace|make|need|want|is|are|was|has|with|in|on|at|to|from|for|of|or|then|too|now|could|can|will|both|all|one)$/;

/** What something is only compared with: "rust like a biscuit tin", "bent like a banana", "as thin as a wafer" names no thing and no place. */
export function likenesses(tokens: readonly Token[]): Chunk[] {
  return tokens.flatMap((token, at): Chunk[] => {
    if (token.word !== 'like' || at === 0 || SEEN.test(word(tokens, at - 1))) return [];
    if (!/^(a|an)$/.test(word(tokens, at + 1)) || tokens[at + 2]?.kind !== 'word') return [];
    let to = at + 3;
    // A second word belongs to it only where a stop or the end follows: "like a ploughed field."
    const [second, after] = [tokens[to], tokens[to + 1]];
    if (
      second?.kind === 'word' &&
      !ON.test(second.word) &&
      (after === undefined || after.kind === 'mark' || ON.test(after.word))
    )
      to += 1;
    return [{ kind: 'aside', from: at, to }];
  });
}
