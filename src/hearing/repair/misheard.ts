import { lexicon, type Part } from '../../trade/lexicon/load.js';
import { asks } from '../questions.js';
import type { Listener } from '../listener.js';
import { singulars } from '../text/morphology.js';
import { isEveryday, isOrdinary } from '../text/ordinary-words.js';
import { joinTokens, tokenise, type Token } from '../text/tokens.js';
import type { Chunk } from '../tagging/chunk.js';
import { isTradeWord } from '../tagging/part-index.js';
import { keyOf } from '../tagging/phrase-index.js';
import { tag } from '../tagging/tag.js';
import { wordAt } from '../text/word-at.js';
import { evidence, FIXED, nounSlot, onlyNoun, personSlot, strength, subjectSlot } from './slots.js';
import { nearestName, soundsLike } from './sound-index.js';

/** Words from `from` up to `to` taken for a part's name; `sure` where nothing else makes sense of them. */
type Repair = { from: number; to: number; name: string; plural: boolean; sure: boolean; cost: number };

const listed = new Map<string, Part>();
for (const part of lexicon.parts) for (const word of part.misheard) listed.set(keyOf(tokenise(word)), part);

/** Words of the longest run that is looked up or sounded out. */
export const LONGEST = 4;
/** A longer message is no note from the bench: looking for slips in it would take too long. */
const LONG = 120;

/** The words of a run, of a tail such as 's its letters. */
const lettersOf = (tokens: readonly Token[], from: number, to: number): string[] =>
  tokens.slice(from, to).map((token) => token.word.replace(/^'/, ''));

/** The part that the lexicon has words in a row down as misheard for, in the singular or plural. */
export function listedPart(
  tokens: readonly Token[],
  from: number,
  to: number,
): { part: Part; plural: boolean } | null {
  const last = tokens[to - 1];
  if (last === undefined) return null;
  const key = keyOf(tokens.slice(from, to)).replace(/'/g, '');
  const direct = listed.get(key);
  if (direct !== undefined) return { part: direct, plural: false };
  const stem = key.slice(0, key.length - last.word.length);
  for (const form of singulars(last.word)) {
    const part = listed.get(stem + form);
    if (part !== undefined) return { part, plural: form !== last.word };
  }
  return null;
}

/** Tokens that no longer count as open: already a part in more than one word, an amount, a name. */
function isOpen(chunks: readonly Chunk[], from: number, to: number, whole: boolean): boolean {
  return chunks.every((chunk) => {
    if (chunk.from >= to || chunk.to <= from) return true;
    if (FIXED.has(chunk.kind)) return false;
    const inside = chunk.from >= from && chunk.to <= to;
    if (chunk.kind === 'part') return whole && inside && chunk.to - chunk.from < to - from;
    if (chunk.to - chunk.from > 1 && !inside) return false;
    if (chunk.kind === 'aside') return inside;
    return whole || chunk.kind === 'word' || chunk.kind === 'correction';
  });
}

function byList(
  tokens: readonly Token[],
  chunks: readonly Chunk[],
  from: number,
  to: number,
  asking: boolean,
): Repair | null {
  const found = listedPart(tokens, from, to);
  if (found === null || !isOpen(chunks, from, to, true)) return null;
  const context = evidence(chunks, from, to, asking);
  const single = to - from === 1;
  const ordinary = lettersOf(tokens, from, to).every((word) => isOrdinary(word));
  const needed = single && ordinary ? 0.9 : 0.5;
  if (
    context < needed ||
    (single && ordinary && (!nounSlot(chunks, from, to) || strength(chunks, from, to) < 1))
  )
    return null;
  return {
    from,
    to,
    name: nearestName(found.part, lettersOf(tokens, from, to)),
    plural: found.plural,
    sure: context >= 1 || !ordinary,
    cost: 0.05,
  };
}

/** Words that carry a sentence, never the name of a part. */
const FUNCTION =
  /^(ones|history|fella|feller|bloke|chap|gaffer|lad|lads|but|so|or|if|as|with|not|no|the|a|an|and|to|of|in|on|at|off|out|up|for|from|by|is|are|was|were|be|been|has|have|had|it|its|them|they|he|she|we|i|you|me|my|his|her|our|us|this|that|these|those|do|did|does|done|can|will|would|could|should|all|both|one|two|some|any|only|just|too|very|bit|quite|now|then|there|here|when|what|where|who|how|than|over|under|again|back|still|yet|about|into|after|before|same|other|new|old|said|says|say|got|get|go|going|gone|went|want|wants|need|needs|see|make|take|took|send|sent|fit|keep|call|ring|rang|look|looks|well|right|left|good|bad|today|tomorrow|morning|week|day|days|pounds|quid|pair|set|each|ready|side|place|man|thing|things|stuff|lot|time|work|job|bike|shop|people|everything|nothing|something|put|pull|pulled|let|cut|run|ran|hold|held|find|found|give|gave|tell|told|bring|brought|leave|try|tried|turn|turned|move|moved|start|started|check|order|ordered|buy|bought|drop|dropped|pick|picked|clean|use|used|file|weld|bled|timed|built|made|came|come|please|thanks|sorry|okay)$/;

/** A window that sound may fill: words without a sense of their own there, a part's name only beside such words. */
function soundable(chunks: readonly Chunk[], from: number, to: number, open: boolean): boolean {
  const inside = chunks.filter((chunk) => chunk.from < to && chunk.to > from);
  const plain = inside.filter((chunk) => chunk.kind === 'word' || chunk.kind === 'aside');
  return (
    (plain.length > 0 || open) &&
    inside.every((chunk) => /^(word|aside|part|article|of|denial|pronoun|correction)$/.test(chunk.kind))
  );
}

/** Words that point at things, which may stand anywhere a noun does. */
const POINTING =
  /^(ones|has|have|had|got|history|fella|feller|bloke|chap|gaffer|missus|lad|lads|he|she|it|its|they|them|that|this|these|those|one|both|all|i|we|you|me|him|her|us|there|here|what|which|who|everything|nothing|something|thing|things|lot|side|end|rest|others|other|two|some|any|no|not|none|new|old|same|good|bad|left|right|man|people|job|bike|shop|work|is|are|was|were|and|the|a|an|my|his|our|your|their|today|tomorrow|now|then|again|day|week|morning|quid|pounds|pair|set|up|out|off|on|in|back|over|under)$/;

/** Words that say how or how much: no thing, unless an article stands right before ("the never is bent"). */
const ADVERB =
  /^(just|only|but|very|too|bit|quite|still|so|really|pretty|rather|fairly|slightly|badly|nearly|almost|even|mostly|well|also|maybe|probably|always|never|already|again|much|more|less|than|as|like|some|lightly|heavily|totally|completely|proper|properly|not|about|otherwise|though|although)$/;

const TELLS = new Set<Chunk['kind']>(['condition', 'remedy', 'process', 'copula', 'quantity', 'count']);

/** Words of places and of parts' names that stand for themselves wherever they are heard. */
const OWN =
  /^(end|ends|hole|holes|inlet|exhaust|centre|kick|lip|face|edge|seam|flange|boss|bore|skirt|crown|shaft|lug|thread|threads|joint|weld|base|tooth|teeth|spline|splines|taper|lobe|lobes|journal|acid|petrol|grease|rust|paint|chrome|nickel|zinc|brass|steel|iron|rubber|leather|cork|copper|bronze)$/;
const isOwn = (word: string): boolean => OWN.test(word);

function bySound(
  tokens: readonly Token[],
  chunks: readonly Chunk[],
  from: number,
  to: number,
  asking: boolean,
): Repair | null {
  const said = lettersOf(tokens, from, to);
  if (
    said.some((word) => !/^[a-z]+$/.test(word)) ||
    tokens.slice(from, to).some((token) => token.word.startsWith("'"))
  )
    return null;
  if (!nounSlot(chunks, from, to) || personSlot(tokens, chunks, from, to)) return null;
  const single = to - from === 1;
  const article = /^(the|a|an)$/.test(wordAt(tokens, from - 1));
  if (single && !article && ADVERB.test(said[0] ?? '')) return null;
  // What the trade says itself is no slip: "the footrest hole", "on the inlet", "kick shaft".
  if (said.some(isOwn) && said.every((word) => isOwn(word) || FUNCTION.test(word) || isTradeWord(word)))
    return null;
  const led = chunks.findLast((chunk) => chunk.to <= from)?.kind;
  const speaks =
    led !== undefined &&
    led !== 'place' &&
    chunks.some((chunk) => chunk.from < to && chunk.to > from && TELLS.has(chunk.kind));
  const forced = single && !speaks && !POINTING.test(said[0] ?? '') && onlyNoun(chunks, from, to);
  if (!forced && (FUNCTION.test(said[0] ?? '') || said.every((word) => FUNCTION.test(word)))) return null;
  const loose = said.slice(1).some((word) => FUNCTION.test(word));
  const open = !single && FUNCTION.test(said.at(-1) ?? '');
  if (open && !subjectSlot(chunks, from, to)) return null;
  if (!forced && !soundable(chunks, from, to, open)) return null;
  const strange = said.some((word) => !singulars(word).some(isOrdinary));
  if (!isOpen(chunks, from, to, !single || forced)) return null;
  const context = evidence(chunks, from, to, asking);
  if (context < 1 && !(strange && context >= 0.6)) return null;
  if (single && strength(chunks, from, to) < 1) return null;
  if (single && !strange && !forced && !subjectSlot(chunks, from, to)) return null;
  const limit = open
    ? 0.06
    : forced
      ? 0.34
      : strange && !loose
        ? 0.3
        : strange
          ? 0.22
          : single
            ? isEveryday(said[0] ?? '')
              ? 0.22
              : 0.26
            : 0.28;
  const found = soundsLike(said, limit);
  if (found === null || (!single && !strange && found.share > 0.16 && !sharesWord(found.name, said)))
    return null;
  const plural = /s$/.test(said.at(-1) ?? '') && !found.name.endsWith('s');
  const sure = found.share <= 0.12 || (strange && found.share <= 0.2);
  return { from, to, name: found.name, plural, sure, cost: found.share + (single ? 0.05 : 0) };
}

const sharesWord = (name: string, said: readonly string[]): boolean =>
  name.split(' ').some((word) => word.length > 2 && said.includes(word));

const better = (a: Repair, b: Repair): boolean =>
  a.cost - (a.to - a.from) * 0.06 < b.cost - (b.to - b.from) * 0.06;

function candidates(tokens: readonly Token[], chunks: readonly Chunk[]): Repair[] {
  const found: Repair[] = [];
  const asking = asks(joinTokens(tokens));
  for (let from = 0; from < tokens.length; from += 1)
    for (let to = from + 1; to <= Math.min(tokens.length, from + LONGEST); to += 1) {
      if (tokens[to - 1]?.kind !== 'word' && !(tokens[to - 1]?.word === '0')) break;
      const one =
        byList(tokens, chunks, from, to, asking) ??
        (to - from <= 3 ? bySound(tokens, chunks, from, to, asking) : null);
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
  const rounds = tokens.length > LONG ? 0 : 4;
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
