import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { inside } from './compounds.js';
import type { Mention } from './mentions.js';

const CONTAINS = /^(in|of|on|inside|from|off|for|under|behind|at)$/;
const JOINING =
  /^(union|banjo|collar|bush|bearing|bolt|nut|screw|stud|seal|gasket|washer|spring|bracket|cover|clip|spindle|pin|cap|lever|cable|rubber|lug|mounting|pivot|housing|lock|breather|pointer|needle|roller|rivet|baffle|spigot|cork|lobe|pad|trunnion|fin|liner|insert|tensioner|oiler|scraper|deflector|dowel|peg|ferrule|gaiter|boot|catch|hinge|hook|latch|strap)$/;

/** Parts that a plain name before them owns, and that keep their own name: "magneto points". */
const BELONGS =
  /^(points|brush|coil|plate|shoe|rod|ring|gear|sprocket|shaft|body|jet|slide|needle|float|drum|spoke|adjuster|guide|tube|linkage|stop|glass|lens|rim)$/;

const untaken = (taken: Set<number>, from: number): number => {
  let at = from;
  while (at >= 0 && taken.has(at)) at -= 1;
  return at;
};

/** Of these the plain name is the trade's own, whatever they are in. */
const OWN_NAME =
  /^(points|brush|coil|stop|linkage|rod|shaft|adjuster|tube|gear|ring|sprocket|spoke|rim|guide|drum)$/;

/** What a part has rather than is made of: said with the part, the part is meant. */
export const FEATURE =
  /^(spline|thread|tooth|flange|seam|face|lip|boss|edge|journal|hole|shoulder|taper|keyway|surface)$/;

export type Work = {
  chunks: readonly Chunk[];
  tokens: readonly Token[];
  made: Map<number, Mention>;
  taken: Set<number>;
};

/** "the bush in the spindle", "the spindle's bush", "gearbox bearing": one mention, of the inner part. */
export function mergeOwner({ chunks, tokens, made, taken }: Work, at: number, mention: Mention): void {
  const back = untaken(taken, at - 1);
  const link = chunks[back];
  const possessive = link?.kind === 'copula' && tokens[link.from]?.word === "'s";
  const word = link === undefined ? '' : (tokens[link.from]?.word ?? '');
  // "chaincase off screws": without an article a particle belongs to the thing before it.
  const article = tokens[mention.from - 1]?.kind === 'word' && tokens[mention.from - 1]?.word !== word;
  const preposition =
    link?.kind === 'of' && CONTAINS.test(word) && (article || !/^(off|on|in|at)$/.test(word));
  const before = possessive || preposition ? untaken(taken, back - 1) : back;
  const other = made.get(before);
  const here = mention.part;
  const there = other?.part;
  if (other === undefined || here === null || there == null || other.item !== null) return;
  const beside =
    before === at - 1 &&
    !there.plural &&
    (here.within.includes(there.part) || JOINING.test(here.said) || BELONGS.test(here.said));
  if (preposition) {
    mention.part = inside(there, here);
    mention.places = [...new Set([...other.places, ...mention.places])];
    Object.assign(mention, { count: other.count, both: other.both, from: other.from });
  } else if (
    beside &&
    !BELONGS.test(here.said) &&
    inside(here, there).part === here.part &&
    !here.within.includes(there.part) &&
    !FEATURE.test(here.said)
  ) {
    mention.part = { ...here, part: `${there.part} ${here.part}`, said: `${there.said}${here.said}` };
    mention.places = [...new Set([...other.places, ...mention.places])];
    mention.count ??= other.count;
  } else if (possessive || beside || (FEATURE.test(here.said) && before === at - 1)) {
    const compound = inside(here, there);
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
