import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { partOf } from './part-index.js';

/** Words of the longest run that is looked up as a part's name: "front brake cable". */
const LONGEST = 3;

/** Whether a part's name begins at the token: "Thackley's clutch". */
export function partStarts(tokens: readonly Token[], at: number): boolean {
  let key = '';
  for (let to = at; to < at + LONGEST; to += 1) {
    const token = tokens[to];
    if (token?.kind !== 'word') return false;
    key += token.word;
    if (partOf(key, token) !== undefined) return true;
  }
  return (
    /^(front|rear|nearside|offside|left|right|top|bottom|new|old)$/.test(wordAt(tokens, at)) &&
    partStarts(tokens, at + 1)
  );
}
