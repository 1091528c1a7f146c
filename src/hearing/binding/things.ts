import type { Place } from '../../trade/terms.js';
import type { ChunkOf } from '../tagging/chunk.js';
import type { Mention } from './mentions.js';

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

/** The other of each pair of places. */
export const OPPOSITE: Partial<Record<Place, Place>> = {
  front: 'rear',
  rear: 'front',
  left: 'right',
  right: 'left',
  upper: 'lower',
  lower: 'upper',
  inner: 'outer',
  outer: 'inner',
  inlet: 'exhaust',
  exhaust: 'inlet',
  'drive-side': 'timing-side',
  'timing-side': 'drive-side',
};

export type Thing = {
  part: ChunkOf<'part'> | null;
  item: number | null;
  place: Place[];
  count: number | null;
  extent?: Mention['extent'];
  unsure: string[];
};

function opposite(places: readonly Place[], sides: readonly Place[]): Place[] {
  if (places.length > 0) return places.map((place) => OPPOSITE[place] ?? place);
  return sides.length === 2 ? sides.slice(1) : [];
}

/** What a mention points at, given the thing spoken of before it. */
export function thingOf(mention: Mention, last: Thing | null): Thing {
  if (mention.back === 'some')
    return {
      part: last?.part ?? null,
      item: null,
      place: last?.place ?? [],
      count: mention.count,
      unsure: last === null ? ['part'] : [],
    };
  if (mention.back !== null) {
    const part = last?.part ?? null;
    const kept =
      mention.back === 'place' ? (last?.place ?? []).filter((place) => !related(place, mention.places)) : [];
    const place =
      mention.back === 'other'
        ? opposite(last?.place ?? [], last?.count == null ? (part?.sides ?? []) : [])
        : [...kept, ...mention.places];
    return { part, item: null, place, count: null, unsure: last === null ? ['part'] : [] };
  }
  const part = mention.part;
  const sides = part?.sides ?? [];
  const place =
    mention.both &&
    sides.includes('left') &&
    (!sides.includes('front') || mention.places.length === 0) &&
    sides.includes('right') &&
    mention.places.every((place) => place === 'front' || place === 'rear')
      ? [...mention.places, 'left' as const, 'right' as const]
      : mention.places;
  return {
    part,
    item: mention.item,
    place: unique(place),
    count: mention.count,
    extent: mention.extent,
    unsure: part !== null && !part.sure ? ['part'] : [],
  };
}

/** Places of one pair take each other's turn: after "the left", "the right" is the right alone. */
const related = (place: Place, others: readonly Place[]): boolean =>
  others.some((other) => other === place || OPPOSITE[place] === other);
