import type { Token } from '../text/tokens.js';
import { wordAt as word } from '../text/word-at.js';
import type { Chunk } from './chunk.js';

/** More of one thing than this is an amount or a year, no count of parts; and more pairs than this are no pairs. */
const MOST = 999;
const MOST_PAIRS = 9;

function count(
  tokens: readonly Token[],
  at: number,
): Omit<Extract<Chunk, { kind: 'count' }>, 'from' | 'kind'> | null {
  const said = word(tokens, at);
  const token = tokens[at];
  const plain = (to: number, value: number, of = false) => ({ to, count: value, both: false, of });
  if (said === 'both')
    return {
      to: at + 1 + (/^(the|of|sides)$/.test(word(tokens, at + 1)) ? 1 : 0),
      count: 2,
      both: true,
      of: false,
    };
  if (said === 'either' && /^(side|end)$/.test(word(tokens, at + 1)))
    return { to: at + 2, count: 2, both: true, of: false };
  const a = /^(a|the|another|1|one)$/.test(said) ? 1 : 0;
  const noun = word(tokens, at + a);
  const of = word(tokens, at + a + 1) === 'of';
  if (noun === 'pair' || noun === 'pairs') return plain(at + a + 1 + (of ? 1 : 0), 2);
  if (noun === 'couple') return plain(at + a + 1 + (of ? 1 : 0), 2);
  if (noun === 'dozen') return plain(at + a + 1 + (of ? 1 : 0), 12);
  if (said === 'half' && word(tokens, at + 1) === 'a' && word(tokens, at + 2) === 'dozen')
    return plain(at + 3, 6);
  if (/^(set|sets)$/.test(noun)) {
    const size = tokens[at + a + 2];
    if (of && size?.kind === 'number' && size.value !== undefined) return plain(at + a + 3, size.value);
    return null;
  }
  if (/^x$/i.test(said) && tokens[at + 1]?.kind === 'number' && tokens[at + 1]?.value !== undefined)
    return plain(at + 2, tokens[at + 1]?.value ?? 1);
  // "a 5/16 bolt"
  if (word(tokens, at - 1) === '/' || (word(tokens, at + 1) === '/' && tokens[at + 2]?.kind === 'number'))
    return null;
  const all = said === 'all' ? 1 : 0;
  const figure = tokens[at + all];
  if (
    figure?.kind === 'number' &&
    figure.ordinal !== true &&
    Number.isInteger(figure.value) &&
    (figure.value ?? 0) > 0 &&
    (figure.value ?? 0) <= MOST
  ) {
    let to = at + all + 1;
    if (/^(off|x)$/.test(word(tokens, to)) && /^[a-z]/.test(word(tokens, to + 1))) to += 1;
    const ends =
      tokens[to + 1] === undefined || tokens[to + 1]?.kind === 'mark' || word(tokens, to + 1) === 'them';
    if (/^(of|off)$/.test(word(tokens, to)) && ends)
      return plain(to + (word(tokens, to + 1) === 'them' ? 2 : 1), figure.value ?? 1);
    // "6 no. studs", "two pairs of shoes"
    if (word(tokens, to) === 'no' && word(tokens, to + 1) === '.' && tokens[to + 2]?.kind === 'word')
      return plain(to + 2, figure.value ?? 1);
    if (word(tokens, to) === 'pairs' && (figure.value ?? 0) > 1 && (figure.value ?? 0) <= MOST_PAIRS)
      return plain(to + (word(tokens, to + 1) === 'of' ? 2 : 1), 2 * (figure.value ?? 1));
    if (/^(of|out)$/.test(word(tokens, to))) {
      to += word(tokens, to) === 'out' && word(tokens, to + 1) === 'of' ? 2 : 1;
      if (/^(the|these|those|my|his)$/.test(word(tokens, to))) to += 1;
      const total = tokens[to]?.kind === 'number';
      if (total) to += 1;
      return plain(to, figure.value ?? 1, total);
    }
    return plain(to, figure.value ?? 1);
  }
  if (said === 'one' && word(tokens, at + 1) === 'of') {
    let to = at + 2;
    if (/^(the|these|those|my|his)$/.test(word(tokens, to))) to += 1;
    const total = tokens[to]?.kind === 'number';
    if (total) to += 1;
    return plain(to, 1, total || /^(only|just)$/.test(word(tokens, at - 1)));
  }
  if (token?.kind === 'word' && said === 'single') return plain(at + 1, 1);
  return null;
}

/** How many: "both", "a pair of", "set of 4", "4 of the 6", "all 4", "x2". */
export function counts(tokens: readonly Token[]): Chunk[] {
  return tokens.flatMap((_, at) => {
    const found = count(tokens, at);
    return found === null ? [] : [{ kind: 'count' as const, from: at, ...found }];
  });
}
