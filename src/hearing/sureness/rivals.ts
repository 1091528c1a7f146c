import { lexicon } from '../../trade/lexicon/load.js';
import { understood } from '../read-message.js';
import type { ItemReading, Reading } from '../reading.js';
import type { Remedy } from '../../trade/terms.js';
import type { Token } from '../text/tokens.js';
import type { Chunk, Meaning } from '../tagging/chunk.js';
import { soundsLike } from '../repair/sound-index.js';
import { told, type Field } from './evidence.js';

/** What an item would say instead, in one of its fields. */
export type Rival = Partial<ItemReading>;

/** What a meaning would put into a field, where it can tell that field. */
function put(field: Field, meaning: Meaning): Rival | null {
  switch (field) {
    case 'part':
      return meaning.kind === 'part' ? { part: meaning.part } : null;
    case 'item':
      return meaning.kind === 'item' ? { item: meaning.item } : null;
    case 'supplier':
      return meaning.kind === 'supplier' ? { supplier: meaning.supplier } : null;
    case 'due':
      return meaning.kind === 'date' ? { due: meaning.date } : null;
    case 'cost':
      return meaning.kind === 'money' ? { cost: meaning.cost } : null;
    case 'remedy':
      return meaning.kind === 'remedy' ? { remedy: meaning.remedy } : null;
    case 'stored':
      return meaning.kind === 'stored' ? { stored: meaning.stored } : null;
    case 'count':
      return meaning.kind === 'count' ? { count: meaning.count } : null;
    case 'act':
      return meaning.kind === 'act' && meaning.act !== 'agreed' ? { act: meaning.act } : null;
    case 'place':
    case 'conditions':
    case 'processes':
    case 'outcome':
    case 'readings':
      return null;
  }
}

const meanings = (chunk: Chunk): Meaning[] => [chunk, ...(chunk.or ?? [])];

/** How far a name that the lexicon lacks may be in sound from one that it has, by the longer one's length. */
const NEAR_IN_SOUND = 0.4;

/** For a thing that the lexicon doesn't have: the part whose name sounds nearest to what it was called. */
function soundalike({ part }: ItemReading): Rival[] {
  if (part === null || lexicon.byName(part) !== undefined) return [];
  const near = soundsLike(part.split(/[ -]/), NEAR_IN_SOUND);
  return near === null ? [] : [{ part: near.part.name }];
}

/** Words that tell of a decision by themselves; common practice, no source. */
const DECIDING: readonly [word: RegExp, remedy: Remedy][] = [
  [/^(here|myself|ourselves)$/, 'repair'],
  [/^(new|another|replacement)$/, 'replace'],
];

/** Where nothing was decided: what words that were not taken for a decision may have meant ("true it up here"). */
const hintedRemedies = ({ remedy }: ItemReading, tokens: readonly Token[]): Rival[] =>
  remedy !== null
    ? []
    : DECIDING.filter(([word]) => tokens.some((token) => word.test(token.word))).map(([, meant]) => ({
        remedy: meant,
      }));

/**
 * What else the words of a message could tell in a field of an item, in the order said: what stands in the message and in
 * no item first, then what its other items say; for a thing of no known name, before all, what sounds like it. Each once,
 * and not what the item says already.
 */
export function rivals(reading: Reading, item: ItemReading, field: Field, today: string): Rival[] {
  const { chunks, tokens } = understood(reading.heard, { today }).evidence;
  const others = new Set(reading.items.filter((one) => one !== item).flatMap((one) => told(one, field)));
  const seen = new Set(told(item, field));
  const inWords = chunks.flatMap((chunk) => meanings(chunk)).flatMap((meaning) => put(field, meaning) ?? []);
  const found = [
    ...(field === 'part' ? soundalike(item) : []),
    ...inWords,
    ...(field === 'remedy' ? hintedRemedies(item, tokens) : []),
  ].filter((rival) => {
    const key = told({ ...item, ...rival }, field).join();
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
  const taken = (rival: Rival): number => (others.has(told({ ...item, ...rival }, field).join()) ? 1 : 0);
  return found.sort((a, b) => taken(a) - taken(b));
}
