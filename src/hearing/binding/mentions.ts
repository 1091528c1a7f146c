import type { Place } from '../../trade/terms.js';
import { isKind, type Chunk, type ChunkOf } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { unknownPart } from '../tagging/part-index.js';
import { wordAt } from '../text/word-at.js';
import { inContext, inside } from './compounds.js';
import { mergeOwner, type Work } from './owners.js';
import { saysWhere } from './whereabouts.js';

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
  /** "all the bolts", or "4 of the 6". */
  extent: 'whole' | 'some' | null;
  /** Points back: the last thing's other side, another place of it, or some of it. */
  back: 'other' | 'place' | 'some' | null;
};

export { FEATURE } from './owners.js';

export type Element = Chunk | Mention;

const isPart = isKind('part');

const blank = (chunk: { from: number; to: number }): Mention => ({
  kind: 'mention',
  from: chunk.from,
  to: chunk.to,
  part: null,
  item: null,
  places: [],
  count: null,
  both: false,
  extent: null,
  back: null,
});

/** A mention that only points: "the other side", "the left one", "two" of them. */
export const pointing = (
  chunk: { from: number; to: number },
  back: 'other' | 'place' | 'some',
  places: Place[],
  count: number | null = null,
): Mention => ({ ...blank(chunk), back, places, count });

const PASSED =
  /^(old|original|existing|of|same|whole|side|spare|big|small|little|main|hand|entire|one|proper|two|odd|poor|damn|bloody|flipping|complete|matching|decent|standard)$/;

/** Words left of a part that belong to it; conditions are passed over (they stay in the stream). */
function gatherLeft({ chunks, tokens, taken }: Work, at: number, mention: Mention, feature: boolean): void {
  for (let back = at - 1; back >= 0; back -= 1) {
    const chunk = chunks[back];
    if (chunk === undefined || taken.has(back)) break;
    // "rear bald, front cracked sidewall": the front one, not the front of the wall.
    if (feature && chunk.kind === 'place' && chunks[back + 1]?.kind === 'condition') break;
    if (chunk.kind === 'place') {
      mention.places.unshift(chunk.place);
      taken.add(back);
    } else if (chunk.kind === 'count') {
      mention.count ??= chunk.count;
      mention.both ||= chunk.both;
      if (chunk.of) mention.extent = 'some';
      taken.add(back);
    } else if (chunk.kind === 'article') {
      if (tokens[chunk.from]?.word === 'one') mention.count ??= 1;
      taken.add(back);
    } else if (chunk.kind === 'and' && chunks[back - 1]?.kind === 'place' && mention.places.length > 0)
      taken.add(back);
    else if (chunk.kind === 'of' && chunks[back - 1]?.kind === 'count') taken.add(back);
    else if (chunk.kind === 'condition' || (chunk.kind === 'remedy' && chunk.remedy === 'replace')) continue;
    else if (chunk.kind === 'word' && chunk.word === 'all') mention.extent = 'whole';
    else if (chunk.kind === 'word' && PASSED.test(chunk.word)) continue;
    else break;
  }
}

/** Top and bottom, inside and out are places of parts that come so; any part can be at the front or on the left. */
export const fits = (place: Place, sides: readonly Place[]): boolean =>
  /^(front|rear|left|right|drive-side|timing-side)$/.test(place) || sides.includes(place);

/** A place after a part: how many chunks it takes, or 0 where it leads to something else. */
function placeAfter(
  chunks: readonly Chunk[],
  at: number,
  next: number,
): { length: number; place: Place; count: ChunkOf<'count'> | null } | null {
  let look = next;
  const first = chunks[look];
  const part = chunks[at];
  const comma = first?.kind === 'break' && first.strength === 'comma';
  if (comma) look += 1;
  if (chunks[look]?.kind === 'of') look += 1;
  if (chunks[look]?.kind === 'article') look += 1;
  const chunk = chunks[look];
  if (chunk?.kind !== 'place' || (part?.kind === 'part' && !fits(chunk.place, part.sides))) return null;
  const side = chunks[look + 1];
  const sideWord = side?.kind === 'word' && /^(side|end)$/.test(side.word) ? 1 : 0;
  if (side?.kind === 'word' && /^(one|ones)$/.test(side.word)) return null;
  const pair = chunks[look + 1 + sideWord];
  const count = pair?.kind === 'count' && !isPart(chunks[look + 2 + sideWord]) && comma ? pair : null;
  const after = chunks[look + 1 + sideWord + (count === null ? 0 : 1)];
  if (
    first?.kind === 'of' &&
    chunks[next + 1] === chunk &&
    (after?.kind === 'measure' || after?.kind === 'count')
  )
    return null;
  if (
    isPart(after) ||
    (after?.kind === 'place' && look === next) ||
    (comma && !(after === undefined || after.kind === 'break'))
  )
    return null;
  return { length: look + 1 + sideWord + (count === null ? 0 : 1) - next, place: chunk.place, count };
}

/** Places and counts right of a part: "stanchion on the drive side", "shoes, front pair", "guides both". */
function gatherRight({ chunks, tokens, taken }: Work, at: number, mention: Mention): void {
  for (let next = at + 1; ;) {
    const bracket =
      chunks[next]?.kind === 'word' && tokens[chunks[next]?.from ?? -1]?.text === '('
        ? chunks[next + 1]
        : undefined;
    if (bracket?.kind === 'count' && tokens[bracket.to]?.text === ')') {
      mention.count ??= bracket.count;
      taken
        .add(next)
        .add(next + 1)
        .add(next + 2);
      next += 3;
      continue;
    }
    const found = placeAfter(chunks, at, next);
    const chunk = chunks[next];
    if (found !== null) {
      mention.places.push(found.place);
      if (found.count !== null) mention.count ??= found.count.count;
      for (let index = next; index < next + found.length; index += 1) taken.add(index);
      next += found.length;
      const more = chunks[next + 1];
      if (chunks[next]?.kind === 'and' && more?.kind === 'place' && !isPart(chunks[next + 2])) {
        mention.places.push(more.place);
        taken.add(next).add(next + 1);
        next += 2;
      }
    } else if (chunk?.kind === 'count' && chunk.both && !isPart(chunks[next + 1])) {
      mention.count = 2;
      mention.both = true;
      taken.add(next);
      next += 1;
    } else return;
  }
}

/** Turns parts and item numbers with their places and counts into mentions; the other chunks stay as they are. */
export function mentionsOf(chunks: readonly Chunk[], tokens: readonly Token[]): Element[] {
  const work: Work = { chunks, tokens, made: new Map(), taken: new Set() };
  chunks.forEach((chunk, at) => {
    if (work.taken.has(at)) return;
    if (chunk.kind === 'item') work.made.set(at, { ...blank(chunk), item: chunk.item });
    if (chunk.kind !== 'part') return;
    if (saysWhere(work, at)) return;
    const mention: Mention = { ...blank(chunk), part: chunk, places: [...chunk.places] };
    gatherLeft(work, at, mention, FEATURE_ALONE.test(chunk.said) && work.made.size > 0);
    gatherRight(work, at, mention);
    work.made.set(at, mention);
    mergeOwner(work, at, mention);
  });
  const elements = chunks.flatMap((chunk, at): Element[] =>
    work.taken.has(at) || featureOnly(work, at) || putInstead(work, at) ? [] : [work.made.get(at) ?? chunk],
  );
  const earlier: ChunkOf<'part'>[] = [];
  for (const element of elements) {
    if (element.kind !== 'mention' || element.part === null) continue;
    element.part = headed(elements, element, tokens) ?? inContext(element.part, earlier);
    earlier.push(element.part);
  }
  return needing(itemAndName(elements), tokens);
}

const PIECE =
  /^(body|base|cover|case|casing|housing|pan|lid|frame|shell|bracket|glass|spring|spindle|shaft|bush|bearing|seal|gasket|lever|arm|cap|pin|clip|valve|rubber|foam|end)$/;

/** "oil pump: body scored": a piece of what the message is headed with, where no part is known by that name. */
function headed(
  elements: readonly Element[],
  mention: Mention,
  tokens: readonly Token[],
): ChunkOf<'part'> | null {
  const [head, colon] = elements;
  const [whole, piece] = [head?.kind === 'mention' ? head.part : null, mention.part];
  if (whole === null || piece === null || head === mention || whole.plural) return null;
  if (whole.part.endsWith(piece.said)) return null;
  if (colon?.kind !== 'break' || tokens[colon.from]?.text !== ':' || !PIECE.test(piece.said)) return null;
  if (inside(piece, whole).part !== piece.part) return null;
  if (piece.part === 'frame' && !/seat|saddle/.test(whole.part)) return null;
  return { ...piece, ...unknownPart(`${whole.part} ${piece.said}`, piece.plural, piece.sure) };
}

/** "muffler's had it, rusted out at the seam": a feature by itself is of the thing named before. */
function featureOnly({ made }: Work, at: number): boolean {
  const mention = made.get(at);
  if (mention?.part == null || !FEATURE_ALONE.test(mention.part.said)) return false;
  return [...made].some(([before, { part }]) => before < at && part !== null);
}

const FEATURE_ALONE =
  /^(tooth|teeth|thread|seam|lip|edge|hole|flange|surface|spline|face|shoulder|sidewall|tyresidewall|sidewalls|wall|tang|slot|groove|bead|joint|jointface|weld|tip|corner|root|tread|tyretread|gasketface|stitching|keyway|taper)$/;

/** "replace with taper rollers": what goes in instead is no thing of its own. */
function putInstead({ chunks, tokens, made }: Work, at: number): boolean {
  const mention = made.get(at);
  if (mention?.part == null) return false;
  const back = chunks.findLastIndex((chunk) => chunk.to <= mention.from && chunk.kind === 'of');
  const link = chunks[back];
  const before = chunks[back - 1];
  return (
    link !== undefined &&
    before !== undefined &&
    tokens[link.from]?.word === 'with' &&
    before.kind === 'remedy' &&
    before.remedy === 'replace' &&
    !chunks.slice(back + 1, at).some((chunk) => chunk.kind === 'part' || chunk.kind === 'break') &&
    [...made].some(([other, { part }]) => other < at && part !== null)
  );
}

/** "item 12, the stanchion": a number and its name are one. */
function itemAndName(elements: readonly Element[]): Element[] {
  const out: Element[] = [];
  for (const element of elements) {
    const comma = out.at(-1)?.kind === 'break' ? 1 : 0;
    const numbered = out.at(-1 - comma);
    if (
      element.kind === 'mention' &&
      element.part !== null &&
      element.item === null &&
      numbered?.kind === 'mention' &&
      numbered.item !== null &&
      numbered.part === null &&
      element.from - numbered.to <= 2
    ) {
      out.splice(out.length - 1 - comma, 1 + comma, { ...element, from: numbered.from, item: numbered.item });
    } else out.push(element);
  }
  return out;
}

/** "15 needs a new bush": the number and what it needs are one item. */
function needing(elements: readonly Element[], tokens: readonly Token[]): Element[] {
  const out = [...elements];
  for (let at = 0; at + 3 < out.length; at += 1) {
    const [numbered, needs, remedy, thing] = out.slice(at, at + 4);
    const wants = needs?.kind === 'word' && /^(needs|need|wants|want)$/.test(wordAt(tokens, needs.from));
    if (numbered?.kind !== 'mention' || numbered.item === null || numbered.part !== null || !wants) continue;
    if (
      remedy?.kind !== 'remedy' ||
      remedy.remedy !== 'replace' ||
      thing?.kind !== 'mention' ||
      thing.part === null
    )
      continue;
    out.splice(at, 4, { ...thing, item: numbered.item, from: numbered.from }, remedy);
  }
  return out;
}
