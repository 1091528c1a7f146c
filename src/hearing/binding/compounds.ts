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

/** `beside`: said in one breath, so that little of the outer name is left out. The compound that "the bush in the rocker spindle" or "the clutch's plates" names, where the lexicon has one. */
export function inside(inner: PartChunk, outer: PartChunk, beside = false): PartChunk {
  const words = outer.part.split(' ');
  const shorter = [words[0] ?? '', ...(beside ? [] : [words.slice(0, -1).join(' ')])];
  for (const lead of [outer.part, outer.said, ...shorter]) {
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
  /^(spring|plate|rod|cap|bush|leg|button|pad|dog|lobe|hinge|catch|strap|gaiter|boot|shroud|bezel|pointer|dial|pan|base|foam|lid|hook|nut|bolt|screw|stud|washer|seal|gasket|bearing|glass|lens|rim|cover|bracket|cable|lever|arm|tube|ring|race|cup|needle|float|reflector|pin|clip|shaft|spindle|hub|drum|shoe|lining|sleeve|gear|sprocket|stay|rubber|mounting|lug|spoke|body|jet|bowl|slide|piston|guide|seat|adjuster|locknut|cone|knob|handle|switch|bulb|holder|brush|cam|points|coil|core|valve|filter|pipe|nipple|quadrant|union|tap|blade|basket|centre|fork|bar|shell|cork|link|roller|stand|foot|key|plug|wire|terminal|clamp|damper|collar|o-ring|bosses|boss)$/;

/** Plain names that everybody uses of one thing alone, whatever was spoken of before. */
const MAIN = /^(head|barrel|cylinder|pot|box|tank|crank|cam|guard|frame|forks?|mag|carb|clock|rim)$/;

/** "kickstart pawl worn, quadrant all right": the kickstart's quadrant, though another thing is called so too. */
function kindred(chunk: PartChunk, earlier: readonly PartChunk[]): PartChunk {
  const alias = partNamed(chunk.said);
  if (alias === undefined || alias.name === chunk.said || MAIN.test(chunk.said)) return chunk;
  for (const other of [...earlier].reverse()) {
    const [lead, ...rest] = other.part.split(' ');
    const found = rest.length > 0 || !chunk.plural ? partNamed(`${lead ?? ''}${chunk.said}`) : undefined;
    if (found !== undefined && found.name !== alias.name && found.name === `${lead ?? ''} ${chunk.said}`)
      return renamed(chunk, found.name);
  }
  return chunk;
}

/** The thing spoken of before that the plain name says again: "layshaft bush worn … replace the bush". */
const saidAgain = (chunk: PartChunk, earlier: readonly PartChunk[]): PartChunk | undefined =>
  earlier.findLast(
    (other) =>
      (other.part.endsWith(` ${chunk.said}`) && (other.plural || !chunk.plural)) ||
      (other.said.length > chunk.said.length &&
        other.said.endsWith(chunk.said) &&
        !other.plural === !chunk.plural),
  );

/**
 * A plain name ("the plates") read as the part of what was spoken of before ("clutch plate"), nearest first; as that
 * very part where it says again the last word of its name.
 */
export function inContext(chunk: PartChunk, earlier: readonly PartChunk[]): PartChunk {
  const place = chunk.places[0];
  const named = place !== undefined && chunk.said.startsWith(place) ? chunk.said.slice(place.length) : null;
  // "front mudguard stay bent, rear stay missing": no chain stay.
  const same =
    named === null
      ? undefined
      : earlier.findLast((other) => other.part.endsWith(` ${named}`) && other.part !== chunk.part);
  if (same !== undefined) return { ...renamed(chunk, same.part), places: chunk.places };
  if (!SHARED.test(chunk.said)) return kindred(chunk, earlier);
  if (earlier.some((other) => other.part === chunk.part || other.said === chunk.said)) return chunk;
  const again = saidAgain(chunk, earlier);
  if (again !== undefined) return renamed(chunk, again.part);
  for (const other of [...earlier].reverse()) {
    const found = inside(chunk, other);
    if (found.part !== chunk.part) return found;
    if (chunk.within.includes(other.part)) return chunk;
  }
  return chunk;
}

const ONE = /^(one|ones)$/;

/** What "one" is of, after a part's name: "clutch cable's on, brake one too" is the brake's cable; "a copper one" tells what kind. */
function oneOf(chunk: PartChunk, earlier: readonly PartChunk[], following: Token | undefined): Chunk | null {
  if (following === undefined || !ONE.test(following.word) || /^(exhaust|inlet|intake)$/.test(chunk.said))
    return null;
  const to = chunk.to + 1;
  for (const other of [...earlier].reverse()) {
    const head = other.part.split(' ').at(-1) ?? '';
    const found = partNamed(`${chunk.said}${head}`) ?? partNamed(`${chunk.part}${head}`.replace(/[ -]/g, ''));
    if (found !== undefined && found.name !== chunk.part)
      return { ...renamed({ ...chunk, plural: /s$/.test(following.word) }, found.name), to };
  }
  return chunk.sure && earlier.length === 0
    ? null
    : { from: chunk.from, to: chunk.to, kind: 'word', word: 'kind' };
}

/** "plain plates scored, friction ones glazed": the kind of what was spoken of that the word before "ones" names. */
function kindOf(chunk: Chunk, earlier: readonly PartChunk[], tokens: readonly Token[]): PartChunk | null {
  const following = tokens[chunk.to];
  const said = tokens[chunk.from]?.word ?? '';
  if (chunk.kind !== 'word' || following === undefined || !ONE.test(following.word)) return null;
  for (const other of [...earlier].reverse()) {
    const words = other.part.split(' ');
    const head = words.at(-1) ?? '';
    const found =
      partNamed(`${words.length > 1 ? (words[0] ?? '') : ''}${said}${head}`) ?? partNamed(`${said}${head}`);
    if (found !== undefined && found.name !== other.part)
      return {
        ...renamed({ ...other, plural: /s$/.test(following.word) }, found.name),
        from: chunk.from,
        to: chunk.to + 1,
      };
  }
  return null;
}

/** Nouns that are parts only by what was spoken of before: "headlamp dented, glass good", "the stays are in box 12". */
export function contextNouns(chunks: readonly Chunk[], tokens: readonly Token[]): Chunk[] {
  const earlier: PartChunk[] = [];
  const named = chunks.map((chunk, at): Chunk => {
    if (chunk.kind === 'part') {
      const one = oneOf(chunk, earlier, tokens[chunk.to]) ?? chunk;
      if (one.kind === 'part') earlier.push(one);
      return one;
    }
    const kind = earlier.length === 0 ? null : kindOf(chunk, earlier, tokens);
    if (kind !== null) {
      earlier.push(kind);
      return kind;
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
  return named.filter(
    (chunk, at) => !/^(article|count|word)$/.test(chunk.kind) || chunk.from >= (named[at - 1]?.to ?? 0),
  );
}
