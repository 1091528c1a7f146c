import { lexicon, type Part } from '../../trade/lexicon/load.js';
import { keyOf, phraseIndex } from '../tagging/phrase-index.js';
import { singulars } from '../text/morphology.js';
import { isOrdinary } from '../text/ordinary-words.js';
import { tokenise, type Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { isOpen, isSingle, lettersOf, SINGLE_WORD_COST, type Repair, type Run } from './runs.js';
import { evidence, nounSlot, onlyNoun, strength } from './slots.js';
import { nearestName } from './sound-index.js';

/** Evidence of bench talk that a word of its own sense wants, and another; found on the spoken half of the tuning corpora. */
const FOR_ORDINARY = 0.9;
const FOR_OTHERS = 0.5;

const listed = new Map<string, Part>();
for (const part of lexicon.parts) for (const word of part.misheard) listed.set(keyOf(tokenise(word)), part);

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

/** "out to Kelloran for nickel", "the bars to be nickel": the work itself, whatever part sounds like it. */
const namesWork = ({ tokens, from }: Run): boolean =>
  /^(for|be|in|of)$/.test(wordAt(tokens, from - 1)) &&
  phraseIndex.get(wordAt(tokens, from))?.some(({ kind }) => kind === 'process') === true;

/** The part that a run is down as misheard for, where the message speaks of a bench. */
export function byList(run: Run): Repair | null {
  const { tokens, chunks, from, to } = run;
  if (isSingle(run) && namesWork(run)) return null;
  const found = listedPart(tokens, from, to);
  if (found === null || !isOpen(run, true)) return null;
  const said = lettersOf(run);
  const context = evidence(chunks, from, to, run.asking);
  const ordinary = said.every((word) => isOrdinary(word));
  // "out for nickel": a work's own name is no slip, unless a thing must stand there.
  const isWork = chunks.some((chunk) => chunk.kind === 'process' && chunk.from === from && chunk.to === to);
  if (isSingle(run) && isWork && !onlyNoun(chunks, from, to)) return null;
  const ownSense = isSingle(run) && ordinary;
  if (context < (ownSense ? FOR_ORDINARY : FOR_OTHERS)) return null;
  if (ownSense && (!nounSlot(chunks, from, to) || strength(chunks, from, to) < 1)) return null;
  return {
    from,
    to,
    name: nearestName(found.part, said),
    plural: found.plural,
    sure: context >= 1 || !ordinary,
    cost: SINGLE_WORD_COST,
  };
}
