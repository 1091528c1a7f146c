import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';

/** One step that settles words with two senses by their company. */
export type Settle = (chunks: readonly Chunk[], tokens: readonly Token[]) => Chunk[];
