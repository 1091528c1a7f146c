import { lexicon } from '../../trade/lexicon/load.js';
import type { Place } from '../../trade/terms.js';
import { isKind, type Chunk, type ChunkOf } from '../tagging/chunk.js';
import { partNamed, unknownPart } from '../tagging/part-index.js';
import { keyOf } from '../tagging/phrase-index.js';
import { tokenise, type Token } from '../text/tokens.js';

/** A thing spoken of: a part, an item by number, or one meant by a word that points back. */
export type Mention = {
  kind: 'mention';
  from: number;
  to: number;
  part: ChunkOf<'part'> | null;
  item: number | null;
  places: Place[];
  count: number | null;
  /** "both", which gives sides to a thing that has two. */
  both: boolean;
  indefinite: boolean;
  /** Points back: what was said of the last one is said of this too, or its other side is meant. */
  back: 'other' | 'place' | null;
};

export type Element = Chunk | Mention;

const isPart = isKind('part');

/** Words left of a part that belong to it; conditions are passed over (they stay in the stream). */
function gatherLeft(chunks: readonly Chunk[], at: number, mention: Mention, taken: Set<number>): void {
  for (let back = at - 1; back >= 0; back -= 1) {
    const chunk = chunks[back];
    if (chunk === undefined || taken.has(back)) break;
    if (chunk.kind === 'place') {
      mention.places.unshift(chunk.place);
      taken.add(back);
    } else if (chunk.kind === 'count') {
      if (mention.count === null) mention.count = chunk.count;
      mention.both ||= chunk.both;
      taken.add(back);
    } else if (chunk.kind === 'article') {
      mention.indefinite = !chunk.definite;
      taken.add(back);
    } else if (chunk.kind === 'and' && chunks[back - 1]?.kind === 'place' && mention.places.length > 0)
      taken.add(back);
    else if (chunk.kind === 'condition' || (chunk.kind === 'remedy' && chunk.remedy === 'replace')) continue;
    else if (
      chunk.kind === 'word' &&
      /^(old|original|existing|of|same|whole|side|spare|big|small|little|main|hand|entire|one)$/.test(
        chunk.word,
      )
    )
      continue;
    else if (chunk.kind === 'of' && chunks[back - 1]?.kind === 'count') taken.add(back);
    else break;
  }
}

/** Places and counts right of a part: "stanchion on the drive side", "footrest, nearside", "guides both". */
function gatherRight(chunks: readonly Chunk[], at: number, mention: Mention, taken: Set<number>): number {
  let next = at + 1;
  for (;;) {
    let look = next;
    const comma = chunks[look]?.kind === 'break' && (chunks[look] as ChunkOf<'break'>).strength === 'comma';
    if (comma) look += 1;
    if (chunks[look]?.kind === 'of') look += 1;
    if (chunks[look]?.kind === 'article') look += 1;
    const chunk = chunks[look];
    const side = chunks[look + 1];
    const sideWord = side?.kind === 'word' && /^(side|end|one)$/.test(side.word) ? 1 : 0;
    if (chunk?.kind === 'place') {
      const after = chunks[look + 1 + sideWord];
      const belongsOn = isPart(after) || after?.kind === 'place';
      const closes = !comma || after === undefined || after.kind === 'break';
      if ((belongsOn && sideWord === 0 && look === next) || !closes) break;
      if (isPart(after) && sideWord === 0) break;
      mention.places.push(chunk.place);
      for (let index = next; index <= look + sideWord; index += 1) taken.add(index);
      next = look + 1 + sideWord;
    } else if (chunk?.kind === 'count' && chunk.both && !isPart(chunks[look + 1]) && !comma) {
      mention.count = 2;
      mention.both = true;
      taken.add(look);
      next = look + 1;
    } else break;
  }
  return next;
}

/** The compound that "the bush in the rocker spindle" names, where the lexicon has one. */
function inside(inner: ChunkOf<'part'>, outer: ChunkOf<'part'>): ChunkOf<'part'> {
  const tail = inner.part;
  for (const name of [`${outer.part} ${tail}`, `${outer.part.split(' ')[0] ?? ''} ${tail}`]) {
    const part = partNamed(keyOf(tokenise(name)));
    if (part !== undefined) return { ...inner, ...unknownPart(part.name, inner.plural, true) };
  }
  const within = lexicon.parts.filter(
    (part) =>
      part.within.includes(outer.part) && [part.name, ...part.also].some((name) => name.endsWith(` ${tail}`)),
  );
  const only = within[0];
  return within.length === 1 && only !== undefined
    ? { ...inner, ...unknownPart(only.name, inner.plural, true) }
    : inner;
}

const CONTAINS = /^(in|of|on|inside|from|off|for|under|behind|at)$/;

/** Turns parts and item numbers with their places and counts into mentions; the other chunks stay as they are. */
export function mentionsOf(chunks: readonly Chunk[], tokens: readonly Token[]): Element[] {
  const taken = new Set<number>();
  const made = new Map<number, Mention>();
  chunks.forEach((chunk, at) => {
    if (taken.has(at)) return;
    if (chunk.kind === 'item') made.set(at, { ...blank(chunk), item: chunk.item });
    if (chunk.kind !== 'part') return;
    const mention: Mention = { ...blank(chunk), part: chunk, places: [...chunk.places] };
    gatherLeft(chunks, at, mention, taken);
    const next = gatherRight(chunks, at, mention, taken);
    made.set(at, mention);
    mergeOwner(chunks, at, mention, made, taken, tokens);
    void next;
  });
  return chunks.flatMap((chunk, at): Element[] => (taken.has(at) ? [] : [made.get(at) ?? chunk]));
}

/** "the bush in the spindle", "the spindle's bush", "gearbox bearing": one mention, of the inner part. */
function mergeOwner(
  chunks: readonly Chunk[],
  at: number,
  mention: Mention,
  made: Map<number, Mention>,
  taken: Set<number>,
  tokens: readonly Token[],
): void {
  let back = at - 1;
  while (back >= 0 && taken.has(back)) back -= 1;
  const link = chunks[back];
  const possessive = link?.kind === 'copula' && tokens[link.from]?.word === "'s";
  const preposition = link?.kind === 'of' && CONTAINS.test(tokens[link.from]?.word ?? '');
  let before = possessive || preposition ? back - 1 : back;
  while (before >= 0 && taken.has(before)) before -= 1;
  const other = made.get(before);
  const here = mention.part;
  const there = other?.part;
  if (other === undefined || here === null || there == null) return;
  if (preposition) {
    mention.part = inside(there, here);
    mention.places = [...new Set([...other.places, ...mention.places])].filter(
      (place) => there.sides.length === 0 || there.sides.includes(place) || other.places.includes(place),
    );
    Object.assign(mention, {
      count: other.count,
      both: other.both,
      from: other.from,
      indefinite: other.indefinite,
    });
  } else if (
    possessive ||
    (before === at - 1 &&
      !there.plural &&
      (here.within.includes(there.part) ||
        /^(bush|bearing|bolt|nut|screw|stud|seal|gasket|washer|spring|bracket|cover|clip|spindle|pin|cap|lever|cable|rubber)$/.test(
          here.part,
        )))
  ) {
    mention.part = inside(here, there);
    mention.places = [...new Set([...other.places, ...mention.places])];
    mention.count ??= other.count;
    mention.both ||= other.both;
  } else return;
  taken.add(before);
  if (possessive || preposition) taken.add(back);
  made.delete(before);
}

const blank = (chunk: { from: number; to: number }): Mention => ({
  kind: 'mention',
  from: chunk.from,
  to: chunk.to,
  part: null,
  item: null,
  places: [],
  count: null,
  both: false,
  indefinite: false,
  back: null,
});

/** A mention that only points: "the other side", "the left one". */
export const pointing = (chunk: Chunk, back: 'other' | 'place', places: Place[]): Mention => ({
  ...blank(chunk),
  back,
  places,
});
