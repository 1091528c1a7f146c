import type { Listener } from '../listener.js';
import { asks } from '../questions.js';
import type { Chunk } from '../tagging/chunk.js';
import { tag } from '../tagging/tag.js';
import { isOrdinary } from '../text/ordinary-words.js';
import { joinTokens, tokenise, type Token } from '../text/tokens.js';
import { byList } from './listed-slips.js';
import type { Repair } from './runs.js';
import { bySound } from './sound-slips.js';

/** Words of the longest run that is looked up, and that is sounded out. */
export const LONGEST = 4;
const LONGEST_SOUNDED = 3;

/** A longer message is no note from the bench: looking for slips in it would take too long. */
const LONG = 120;

/** More slips than these are no message to be put right. */
const MOST_REPAIRS = 4;

/** What a word more in the name found is worth in distance of sound; found on the spoken half of the tuning corpora. */
const PER_WORD = 0.06;

const better = (a: Repair, b: Repair): boolean =>
  a.cost - (a.to - a.from) * PER_WORD < b.cost - (b.to - b.from) * PER_WORD;

function candidates(tokens: readonly Token[], chunks: readonly Chunk[]): Repair[] {
  const found: Repair[] = [];
  const asking = asks(joinTokens(tokens));
  for (let from = 0; from < tokens.length; from += 1)
    for (let to = from + 1; to <= Math.min(tokens.length, from + LONGEST); to += 1) {
      if (tokens[to - 1]?.kind !== 'word') break;
      const run = { tokens, chunks, from, to, asking };
      const one = byList(run) ?? (to - from <= LONGEST_SOUNDED ? bySound(run) : null);
      if (one !== null) found.push(one);
    }
  return found;
}

function put(tokens: readonly Token[], repair: Repair): Token[] {
  const first = tokens[repair.from];
  const name = repair.plural ? `${repair.name}s` : repair.name;
  const made = tokenise(name).map((token, index): Token => ({
    ...token,
    before: index === 0 ? (first?.before ?? ' ') : token.before,
    ...(repair.sure ? {} : { repaired: true }),
  }));
  return [...tokens.slice(0, repair.from), ...made, ...tokens.slice(repair.to)];
}

/**
 * Puts right parts that a recogniser took for other words ("station" -> "stanchion"), by the lexicon's list and by sound,
 * where a thing is missing from bench talk. An ordinary word that makes sense as it stands is left alone.
 */
export function misheardParts(tokens: readonly Token[], listener: Listener): Token[] {
  let out = [...tokens];
  const rounds = tokens.length > LONG ? 0 : MOST_REPAIRS;
  for (let round = 0; round < rounds; round += 1) {
    const chunks = tag(out, listener, isOrdinary);
    const found = candidates(out, chunks);
    if (found.length === 0) break;
    out = put(
      out,
      found.reduce((best, one) => (better(one, best) ? one : best)),
    );
  }
  return out;
}
