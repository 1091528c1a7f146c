import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt, wordsOf } from '../text/word-at.js';
import type { Work } from './owners.js';

/** Words that tell where on a thing a fault is, whatever the fault: "cracked under the main bearing". */
const NEAR =
  /^(by|at|across|under|behind|near|beside|beneath|above|below|around|round|between|next to|close to|just above|just below|against|along|where)$/;

/** Words that tell where, after a fault said of something ("tight in the small end"), and of what, before it ("play in the big end"). */
const WITHIN = /^(in|on|inside|into|from|off|through|over|to|with|of|out of)$/;

/** Faults that are nouns: with a comma before them they are of what comes after. */
const NOUN =
  /(s|play|wear|crack|leak|pit|rust|rot|dent|slack|lift|score|noise|knock|hole|movement|damage|corrosion|split|chip|bend|kink|slop|rock|ridge|lip|pitting|scoring|cracking|rusting|missing)$/;

const BETWEEN =
  /^(just|right|exactly|clean|all|the|way|round|only|mostly|halfway|slightly|up|down|badly|bit|a|little|quite|mainly|again|through|and|about|out|somewhere|there|inwards|outwards|too|also|off|side|end|edge|corner|top|bottom|middle|back|centre)$/;

const tells = (chunk: Chunk | undefined, tokens: readonly Token[]): boolean =>
  chunk?.kind === 'condition' ||
  (chunk?.kind === 'copula' && !/^(get|got|looks?|be)$/.test(wordAt(tokens, chunk.from))) ||
  chunk?.kind === 'act';

/** What stands before the article and the places of a part. */
function linkBefore(chunks: readonly Chunk[], at: number): number {
  let back = at - 1;
  while (chunks[back]?.kind === 'article' || chunks[back]?.kind === 'place' || chunks[back]?.kind === 'count')
    back -= 1;
  return back;
}

/** The fault that a "right", "all the way", "just" leads on from. */
function faultBefore(chunks: readonly Chunk[], at: number, tokens: readonly Token[]): number {
  let back = at;
  while (back > 0 && back > at - 7 && chunks[back]?.kind !== 'condition') {
    const chunk = chunks[back];
    const side = chunk?.kind === 'place' || chunk?.kind === 'article' || chunk?.kind === 'of';
    if (chunk === undefined || chunk.kind === 'break' || !(side || BETWEEN.test(wordsOf(tokens, chunk))))
      return -1;
    back -= 1;
  }
  return chunks[back]?.kind === 'condition' || chunks[back]?.kind === 'measure' ? back : -1;
}

/** The mention last before chunk `at`, of the same sentence unless `far`, and whether a comma or an "and" stands between. */
function subjectBefore(
  { chunks, made }: Work,
  at: number,
  far: boolean,
): { plural: boolean; apart: boolean } | null {
  let apart = false;
  for (let back = at - 1; back >= 0; back -= 1) {
    const chunk = chunks[back];
    if (chunk?.kind === 'break' && chunk.strength === 'full' && !far) return null;
    if (chunk?.kind === 'break' || chunk?.kind === 'and' || chunk?.kind === 'denial') apart = true;
    const mention = made.get(back);
    if (mention !== undefined) return { plural: mention.part?.plural === true, apart };
  }
  return null;
}

/** "between the bore and the tunnel": the second place of two. */
function alsoWhere({ chunks, tokens, taken }: Work, at: number): boolean {
  const back = linkBefore(chunks, at);
  const before = chunks[back - 1];
  if (chunks[back]?.kind !== 'and' || before?.kind !== 'part' || !taken.has(back - 1)) return false;
  const between = linkBefore(chunks, back - 1);
  return tokens[chunks[between]?.from ?? -1]?.word === 'between' && !tells(chunks[at + 1], tokens);
}

const HIDES = /^(behind|under|underneath|beneath|inside|below|beside|next to|above)$/;

/** "Behind the primary chaincase I find …", "under the seat there's …": where one looks, before what one sees there. */
function opensWithWhere({ chunks, tokens }: Work, back: number, at: number): boolean {
  const [link, before] = [chunks[back], chunks[back - 1]];
  const opens = before === undefined || (before.kind === 'break' && before.strength === 'full');
  if (link === undefined || !opens || !HIDES.test(wordsOf(tokens, link))) return false;
  const next = wordAt(tokens, chunks[at + 1]?.from ?? -1);
  if (!/^(i|we|you|there|,)$/.test(next)) return false;
  const full = chunks.findIndex(
    (chunk, end) => end > at && chunk.kind === 'break' && chunk.strength === 'full',
  );
  return chunks.slice(at + 1, full < 0 ? chunks.length : full).some(({ kind }) => kind === 'part');
}

/** Takes a part that only says where the fault of a thing named before it is. */
export function saysWhere(work: Work, at: number): boolean {
  const { chunks, tokens, taken } = work;
  if (alsoWhere(work, at)) {
    taken.add(at);
    return true;
  }
  const back = linkBefore(chunks, at);
  const link = chunks[back];
  if (link === undefined) return false;
  if (opensWithWhere(work, back, at)) {
    for (let place = back; place <= at; place += 1) taken.add(place);
    return true;
  }
  const words = wordsOf(tokens, link);
  const near = NEAR.test(words);
  if (!near && !(link.kind === 'of' && WITHIN.test(words))) return false;
  const fault = faultBefore(chunks, back - 1, tokens);
  const told = chunks[fault];
  if (told === undefined) return false;
  const subject = subjectBefore(work, fault, near);
  if (subject === null) return false;
  const noun =
    NOUN.test(wordAt(tokens, told.to - 1)) ||
    tokens.slice(told.from, told.to).some(({ word }) => /^(tooth|teeth)$/.test(word)) ||
    /^there/.test(wordsOf(tokens, chunks[fault - 2] ?? told));
  if (!near && (noun || told.kind === 'measure') && (subject.apart || subject.plural)) return false;
  if (!near && subject.plural && words !== 'in' && words !== 'on') return false;
  let end = at;
  while (chunks[end + 1]?.kind === 'part' && chunks[end + 1]?.from === chunks[end]?.to) end += 1;
  const next = chunks[end + 1];
  if (words !== 'where' && tells(next, tokens) && !(next?.kind === 'act' && words === 'at')) return false;
  for (let place = back; place <= end; place += 1) taken.add(place);
  return true;
}
