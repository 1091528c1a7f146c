import { lexicon, type Part } from '../../trade/lexicon/load.js';
import { singulars } from '../text/morphology.js';
import type { Token } from '../text/tokens.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { partNamed, unknownPart } from '../tagging/part-index.js';

type PartChunk = ChunkOf<'part'>;

const tails = new Map<string, Part[]>();
for (const part of lexicon.parts)
  for (const name of [part.name, ...part.also]) {
    const tail = name.split(/[ -]/).at(-1) ?? name;
    if (tail === name) continue;
    const there = tails.get(tail) ?? [];
    if (!there.includes(part)) tails.set(tail, [...there, part]);
  }

const renamed = (chunk: PartChunk, name: string): PartChunk => ({
  ...chunk,
  ...unknownPart(name, chunk.plural, chunk.sure),
});

/** The compound that "the bush in the rocker spindle" or "the clutch's plates" names, where the lexicon has one. */
export function inside(inner: PartChunk, outer: PartChunk): PartChunk {
  const words = outer.part.split(' ');
  for (const lead of [outer.part, outer.said, words[0] ?? '', words.slice(0, -1).join(' ')]) {
    if (lead === '') continue;
    const part = partNamed(`${lead}${inner.said}`.replace(/[ -]/g, ''));
    if (part !== undefined && part.name !== outer.part) return renamed(inner, part.name);
  }
  const within = (tails.get(inner.said) ?? []).filter((part) => part.within.includes(outer.part));
  const only = within[0];
  return within.length === 1 && only !== undefined ? renamed(inner, only.name) : inner;
}

/** Parts whose plain name is shared by many: what they belong to decides which is meant. */
export const SHARED =
  /^(spring|plate|rod|cap|bush|nut|bolt|screw|stud|washer|seal|gasket|bearing|glass|lens|rim|cover|bracket|cable|lever|arm|tube|ring|race|cup|needle|float|reflector|pin|clip|shaft|spindle|hub|drum|shoe|lining|sleeve|gear|sprocket|stay|rubber|mounting|lug|spoke|body|jet|bowl|slide|piston|guide|seat|adjuster|locknut|cone|knob|handle|switch|bulb|holder|brush|cam|points|coil|core|valve|filter|pipe|nipple|quadrant|union|tap|blade|basket|centre|drum|fork|bar|shell|cork|link|roller|stand|foot|key|plug|wire|terminal|clamp|damper|collar|circlip|o-ring|bosses|boss)$/;

/** Plain names that everybody uses of one thing alone, whatever was spoken of before. */
const MAIN = /^(head|barrel|cylinder|pot|box|tank|crank|cam|guard|frame|forks?|mag|carb|clock|rim)$/;

/** "kickstart pawl worn, quadrant all right": the kickstart's quadrant, though another thing is called so too. */
function kindred(chunk: PartChunk, earlier: readonly PartChunk[]): PartChunk {
  const alias = partNamed(chunk.said);
  if (alias === undefined || alias.name === chunk.said || MAIN.test(chunk.said)) return chunk;
  for (const other of [...earlier].reverse()) {
    const [lead, ...rest] = other.part.split(' ');
    const found = rest.length > 0 ? partNamed(`${lead ?? ''}${chunk.said}`) : undefined;
    if (found !== undefined && found.name !== alias.name && found.name === `${lead ?? ''} ${chunk.said}`)
      return renamed(chunk, found.name);
  }
  return chunk;
}

/**
 * A plain name ("the plates") read as the part of what was spoken of before ("clutch plate"), nearest first; as that
 * very part where it is the last word of its name ("layshaft bush worn … replace the bush").
 */
export function inContext(chunk: PartChunk, earlier: readonly PartChunk[]): PartChunk {
  if (!SHARED.test(chunk.said)) return kindred(chunk, earlier);
  for (const other of [...earlier].reverse()) {
    if (other.part === chunk.part || other.said === chunk.said) return chunk;
    if (other.part.endsWith(` ${chunk.said}`)) return renamed(chunk, other.part);
    const found = inside(chunk, other);
    if (found.part !== chunk.part) return found;
    if (chunk.within.includes(other.part)) return chunk;
  }
  return chunk;
}

/** Nouns that are parts only by what was spoken of before: "headlamp dented, glass good", "the stays are in box 12". */
export function contextNouns(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const earlier: PartChunk[] = [];
  return chunks.map((chunk, at): Chunk => {
    if (chunk.kind === 'part') {
      earlier.push(chunk);
      return chunk;
    }
    const token = tokens[chunk.from];
    const before = chunks[at - 1];
    const noun =
      token?.kind === 'word' &&
      chunk.to === chunk.from + 1 &&
      (chunk.kind === 'word' ||
        chunk.kind === 'remedy' ||
        chunk.kind === 'process' ||
        chunk.kind === 'act' ||
        chunk.kind === 'condition');
    const opens =
      before === undefined || before.kind === 'break' || before.kind === 'article' || before.kind === 'and';
    if (!noun || earlier.length === 0 || (chunk.kind !== 'word' && !opens)) return chunk;
    for (const said of singulars(token.word)) {
      if (!SHARED.test(said)) continue;
      const plain: PartChunk = {
        from: chunk.from,
        to: chunk.to,
        ...unknownPart(said, said !== token.word, true),
        said,
      };
      const found = inContext(plain, earlier);
      if (found.part === plain.part) continue;
      earlier.push(found);
      return found;
    }
    return chunk;
  });
}
