import { isEveryday } from '../text/ordinary-words.js';
import type { Token } from '../text/tokens.js';
import { wordAt as word } from '../text/word-at.js';
import { isTradeWord, partOf } from './part-index.js';

/** What a machine's name may end in beside the name itself. */
const KIND =
  /^(twin|single|outfit|combination|combo|vertical|triple|major|minor|special|sports|roadster|tourer|scrambler|trials|sidevalve|ohv|bike|job|rebuild|project)$/;

/** Words that go before the machine that a message is headed with: "Right, Osgrave. …". */
const LEADS = /^(right|ok|okay|so|well|now|job|update|morning|evening|and|on|re)$/;

/** Nothing but such words and marks stands before it. */
const opens = (tokens: readonly Token[], at: number): boolean =>
  at <= 3 && tokens.slice(0, at).every((token) => token.kind === 'mark' || LEADS.test(token.word));

/**
 * Where the machine's name ends that a message is headed with: "Brackenshaw. Both stanchions …", "Pendle 250 - cups good".
 * Null where the capitals from `at` up to `to` head nothing.
 */
export function headsWith(tokens: readonly Token[], at: number, to: number): number | null {
  if (!opens(tokens, at)) return null;
  let end = to;
  while (
    (tokens[end]?.kind === 'number' &&
      /^\d{2,4}$/.test(word(tokens, end)) &&
      word(tokens, end + 1) !== 'thou') ||
    KIND.test(word(tokens, end))
  )
    end += 1;
  const mark = tokens[end];
  const ends = mark?.kind === 'mark' && /^[.:–—\n-]$/.test(mark.text);
  const more = tokens.slice(end + 1).some(({ kind }) => kind === 'word');
  const named = tokens
    .slice(at, to)
    .some(
      (token) =>
        !isEveryday(token.word) && !isTradeWord(token.word) && partOf(token.word, token) === undefined,
    );
  return ends && more && named ? end : null;
}
