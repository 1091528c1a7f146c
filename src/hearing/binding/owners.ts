import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { inside } from './compounds.js';
import type { Mention } from './mentions.js';

const CONTAINS = /^(in|of|on|inside|from|off|for|under|behind|at)$/;
const JOINING =
  /^(union|banjo|collar|bush|bearing|bolt|nut|screw|stud|seal|gasket|washer|spring|bracket|cover|clip|spindle|pin|cap|lever|cable|rubber|lug|mounting|pivot|housing|lock|breather|pointer|needle|roller|rivet|baffle|spigot|cork|lobe|pad|trunnion|fin|liner|insert|tensioner|oiler|scraper|deflector|dowel|peg|ferrule|gaiter|boot|catch|hinge|hook|latch|strap)$/;

/** Parts that a plain name before them owns, and that keep their own name: "magneto points". */
const BELONGS =
  /^(points|brush|coil|plate|shoe|rod|ring|gear|sprocket|shaft|body|jet|slide|needle|float|drum|spoke|adjuster|guide|tube|linkage|stop|glass|lens|rim|dog)$/;

const untaken = (taken: Set<number>, from: number): number => {
  let at = from;
  while (at >= 0 && taken.has(at)) at -= 1;
  return at;
};

/** Of these the plain name is the trade's own, whatever they are in. */
const OWN_NAME =
  /^(points|brush|coil|stop|linkage|rod|shaft|adjuster|tube|gear|ring|sprocket|spoke|rim|guide|drum|dog)$/;

/** What a part has rather than is made of: said with the part, the part is meant. */
export const FEATURE =
  /^(spline|thread|tooth|flange|seam|face|lip|boss|edge|journal|hole|shoulder|taper|keyway|surface|sidewall|tang|slot|groove|bead|jointface|gasketface|tip|corner)$/;

export type Work = {
  chunks: readonly Chunk[];
  tokens: readonly Token[];
  made: Map<number, Mention>;
  taken: Set<number>;
};

/** "layshaft third gear": each shaft has its own. */
const ofShaft = (here: ChunkOf<'part'>, there: ChunkOf<'part'>): ChunkOf<'part'> | undefined =>
  /^(layshaft|mainshaft)$/.test(there.part) &&
  /^(first|second|third|fourth|top)(gear|pinion)$/.test(here.said)
    ? { ...here, part: `${there.part} ${here.part}` }
    : undefined;

/** "the slider has a stripped drain screw": the screw is the slider's, and takes its sides. */
function ownerHaving({ chunks, tokens, made, taken }: Work, at: number, mention: Mention): boolean {
  let back = at - 1;
  let faults = 0;
  while (back >= 0 && (taken.has(back) || /^(condition|article|denial)$/.test(chunks[back]?.kind ?? ''))) {
    if (chunks[back]?.kind === 'condition') faults += 1;
    back -= 1;
  }
  const has = chunks[back];
  const article = tokens
    .slice(has?.to ?? at, mention.from + 1)
    .some(({ word, kind }) => kind === 'number' || /^(a|an|some|two|three)$/.test(word));
  if (faults === 0 || has?.kind !== 'copula' || !(article || mention.part?.plural === true)) return false;
  if (tokens[has.to]?.word === 'gone') return false;
  if (!/^(has|have|got|'ve|had)$/.test(wordAt(tokens, has.to - 1))) return false;
  let before = back - 1;
  while (before >= 0 && (taken.has(before) || chunks[before]?.kind === 'copula')) before -= 1;
  const other = made.get(before);
  const [here, there] = [mention.part, other?.part];
  if (other === undefined || here === null || there == null || other.item !== null) return false;
  if (FEATURE.test(here.said)) return false;
  mention.part = inside(here, there);
  mention.places = [...new Set([...other.places, ...mention.places])];
  taken.add(before);
  made.delete(before);
  return true;
}

/** "took the guard off the stays are bent": the verb's own particle, and what follows is told of by itself. */
const takenOff = ({ chunks, tokens }: Work, at: number, link: number): boolean =>
  /^(off|out|in|on)$/.test(tokens[link]?.word ?? '') &&
  chunks[at + 1]?.kind === 'copula' &&
  tokens
    .slice(Math.max(0, link - 5), link)
    .some(({ word }) => /^(took|taken|got|had|pulled|whipped|lifted|put|popped|knocked|drifted)$/.test(word));

/** "the bush in the spindle", "the spindle's bush", "gearbox bearing": one mention, of the inner part. */
export function mergeOwner(work: Work, at: number, mention: Mention): void {
  if (ownerHaving(work, at, mention)) return;
  const { chunks, tokens, made, taken } = work;
  const back = untaken(taken, at - 1);
  const link = chunks[back];
  const possessive = link?.kind === 'copula' && tokens[link.from]?.word === "'s";
  const word = link === undefined ? '' : wordAt(tokens, link.from);
  // "chaincase off screws": without an article a particle belongs to the thing before it.
  const article = tokens[mention.from - 1]?.kind === 'word' && tokens[mention.from - 1]?.word !== word;
  const preposition =
    link?.kind === 'of' &&
    CONTAINS.test(word) &&
    (article || !/^(off|on|in|at)$/.test(word)) &&
    !takenOff(work, at, link.from);
  const before = possessive || preposition ? untaken(taken, back - 1) : back;
  const other = made.get(before);
  const here = mention.part;
  const there = other?.part;
  if (other === undefined || here === null || there == null || other.item !== null) return;
  const beside =
    before === at - 1 &&
    !there.plural &&
    (here.within.includes(there.part) ||
      JOINING.test(here.said) ||
      BELONGS.test(here.said) ||
      ofShaft(here, there) !== undefined);
  if (preposition) {
    mention.part = inside(there, here);
    mention.places = [...new Set([...other.places, ...mention.places])];
    Object.assign(mention, { count: other.count, both: other.both, from: other.from });
  } else if (
    beside &&
    !BELONGS.test(here.said) &&
    ofShaft(here, there) === undefined &&
    inside(here, there, true).part === here.part &&
    !here.within.includes(there.part) &&
    !FEATURE.test(here.said)
  ) {
    mention.part = { ...here, part: `${there.part} ${here.part}`, said: `${there.said}${here.said}` };
    mention.places = [...new Set([...other.places, ...mention.places])];
    mention.count ??= other.count;
  } else if (possessive || beside || (FEATURE.test(here.said) && before === at - 1)) {
    const compound = ofShaft(here, there) ?? inside(here, there, beside);
    const guessed =
      BELONGS.test(here.said) && compound.part === here.part && !here.within.includes(there.part);
    mention.part =
      FEATURE.test(here.said) && compound.part === here.part
        ? there
        : guessed
          ? {
              ...compound,
              ...(OWN_NAME.test(here.said) ? {} : { part: `${there.part} ${here.said}` }),
              sure: false,
            }
          : compound;
    mention.places = [...new Set([...other.places, ...mention.places])];
    mention.count ??= other.count;
    mention.both ||= other.both;
  } else return;
  taken.add(before);
  if (possessive || preposition) taken.add(back);
  made.delete(before);
}
