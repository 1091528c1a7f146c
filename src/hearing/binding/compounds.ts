import { lexicon, type Part } from '../../trade/lexicon/load.js';
import type { ChunkOf } from '../tagging/chunk.js';
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
const SHARED =
  /^(spring|plate|rod|cap|bush|nut|bolt|screw|stud|washer|seal|gasket|bearing|glass|lens|rim|cover|bracket|cable|lever|arm|tube|ring|race|cup|needle|float|reflector|pin|clip|shaft|spindle|hub|drum|shoe|lining|sleeve|gear|sprocket|stay|rubber|mounting|lug|spoke|body|jet|bowl|slide|piston|head|guide|seat|adjuster|locknut|cone|knob|handle|switch|bulb|holder|brush|cam|points|coil|core|valve|filter|pipe|union|tap|blade|basket|centre|drum|fork|bar|shell|cork|link|roller|stand|foot|key|plug|wire|terminal|clamp|damper|collar|circlip|o-ring|bosses|boss|bottom|top)$/;

/** A plain name ("the plates") read as the part of what was spoken of before ("clutch plate"), nearest first. */
export function inContext(chunk: PartChunk, earlier: readonly PartChunk[]): PartChunk {
  if (!SHARED.test(chunk.said)) return chunk;
  for (const other of [...earlier].reverse()) {
    if (other.part === chunk.part || other.said === chunk.said) return chunk;
    const found = inside(chunk, other);
    if (found.part !== chunk.part) return found;
    if (chunk.within.includes(other.part)) return chunk;
  }
  return chunk;
}
