import { lexicon, type Part } from '../../trade/lexicon/load.js';
import { PLACES, type Place } from '../../trade/terms.js';
import { otherSingulars } from '../text/morphology.js';
import type { Token } from '../text/tokens.js';
import { noteBeginnings } from './beginnings.js';
import type { PartMeaning } from './chunk.js';
import { phraseIndex, phraseKey } from './phrase-index.js';

type Name = { part: Part; places: Place[]; plural: boolean };

/** Places that a name holds as words: "rear sprocket". Inlet and exhaust belong to the name itself ("exhaust pipe"). */
function placesIn(name: string): Place[] {
  const said = `${name.replace(/-/g, ' ')} `;
  return PLACES.filter(
    (place) => place !== 'inlet' && place !== 'exhaust' && said.startsWith(`${place.replace(/-/g, ' ')} `),
  );
}

function build(): Map<string, Name> {
  const names = new Map<string, Name>();
  const add = (said: string, part: Part, plural: boolean): void => {
    const key = phraseKey(said);
    if (!names.has(key)) names.set(key, { part, places: placesIn(said), plural });
  };
  for (const part of lexicon.parts) add(part.name, part, false);
  for (const part of lexicon.parts) {
    for (const name of part.also) add(name, part, false);
    if (part.plural !== undefined) add(part.plural, part, true);
  }
  return names;
}

const names = build();
noteBeginnings(names.keys());

/** The part of that canonical or other name, words joined. */
export const partNamed = (key: string): Part | undefined => names.get(key)?.part;

const meaningOf = (name: Name, plural: boolean, said: string): PartMeaning => ({
  kind: 'part',
  part: name.part.name,
  said,
  plural: plural || name.plural,
  ...(name.part.count === undefined ? {} : { set: name.part.count }),
  sides: name.part.sides,
  within: name.part.within,
  quantities: name.part.quantities,
  places: name.places,
  sure: true,
});

/** The part that words joined to `key`, ending in `last`, name, in the singular or plural. */
export function partOf(key: string, last: Token): PartMeaning | undefined {
  const direct = names.get(key);
  if (direct !== undefined) return meaningOf(direct, false, key);
  const forms = otherSingulars(last.word);
  if (forms.length === 0) return undefined;
  const stem = key.slice(0, key.length - last.word.length);
  for (const singular of forms) {
    const name = names.get(stem + singular);
    if (name !== undefined) return meaningOf(name, true, stem + singular);
  }
  return undefined;
}

/** A part that the lexicon doesn't have, as it was called. */
export const unknownPart = (called: string, plural: boolean, sure: boolean): PartMeaning => {
  const key = phraseKey(called);
  const name = names.get(key);
  if (name !== undefined) return { ...meaningOf(name, plural, key), sure };
  return {
    kind: 'part',
    part: called,
    said: called,
    plural,
    sides: [],
    within: [],
    quantities: [],
    places: [],
    sure,
  };
};

const tradeWords = new Set(
  lexicon.parts.flatMap((part) => [part.name, ...part.also]).flatMap((name) => name.split(/[ -]/)),
);

/** Whether the word belongs to the trade's language, in a part's name or a phrase. */
export const isTradeWord = (word: string): boolean => tradeWords.has(word) || phraseIndex.has(word);
