import type { ItemReading } from '../reading.js';
import type { Chunk } from '../tagging/chunk.js';
import { isTradeWord } from '../tagging/part-index.js';
import { isEveryday, isOrdinary } from '../text/ordinary-words.js';
import {
  FIELDS,
  anchors,
  eachField,
  meaningOf,
  told as toldIn,
  type Evidence,
  type Field,
} from './evidence.js';

export type Span = { from: number; to: number };

/** Words that hold a sentence together and carry nothing that a bench would log. */
const GRAMMAR =
  /^(i|me|my|we|us|our|you|your|he|him|his|she|her|it|its|they|them|their|one|ones|who|which|that|this|these|those|there|here|what|how|as|so|than|then|and|or|but|if|when|while|once|till|until|also|too|very|quite|really|just|only|even|still|yet|already|now|again|please|thanks|cheers|ta|mate|well|right|ok|okay|yes|yeah|no|not|oh|ah|er|um|erm|is|are|was|were|be|been|being|am|do|does|did|done|has|have|had|having|will|would|shall|should|can|could|may|might|must|need|needs|needed|want|wants|get|gets|got|getting|go|goes|going|gone|come|comes|came|coming|let|make|made|say|says|said|think|reckon|know|see|look|looks|looked|give|given|take|takes|put|bit|thing|things|stuff|lot|all|both|each|every|any|some|more|most|much|many|other|another|same|such|own|out|up|down|off|back|on|in|at|to|of|for|from|with|by|into|over|under|about|around|after|before|through|'s|'ve|'re|'ll|'d|'m|s|t|to|day|today|job|work|bike|machine|time|way|at|per|plus|'|,|"|\(|\))$/;

const MEANT = new Set<Chunk['kind']>([
  'act',
  'item',
  'part',
  'count',
  'place',
  'condition',
  'remedy',
  'process',
  'supplier',
  'stored',
  'money',
  'date',
  'measure',
]);

/** A message looked at once, for what the marks of all its fields need. */
export type Surroundings = Evidence & {
  items: readonly ItemReading[];
  /** What each item says in each field. */
  tellings: readonly Readonly<Record<Field, readonly string[]>>[];
  anchors: readonly (Chunk | null)[];
  /** Of each item, the stretch that is its own and the sentence it is named in: the whole message where it isn't named. */
  reaches: readonly { own: Span; sentence: Span }[];
  /** Words of meaning that nothing was made of. */
  strays: readonly Chunk[];
  /** Of these, words that neither the dictionary nor the trade has. */
  strangers: readonly Chunk[];
  /** Numbers that nothing was made of. */
  figures: readonly Chunk[];
  /** Things understood one by one that stand in no item. */
  lost: readonly Chunk[];
  /** Where full stops and the like part sentences. */
  stops: readonly number[];
};

export function surroundings(items: readonly ItemReading[], evidence: Evidence): Surroundings {
  const { chunks, tokens } = evidence;
  const wordOf = (chunk: Chunk): string => tokens[chunk.from]?.word ?? '';
  const loose = chunks.filter((chunk) => chunk.kind === 'word');
  const strays = loose.filter((chunk) => /^\p{L}{2,}/u.test(wordOf(chunk)) && !GRAMMAR.test(wordOf(chunk)));
  const stops = chunks
    .filter((chunk) => chunk.kind === 'break' && chunk.strength === 'full')
    .map((chunk) => chunk.from);
  const named = anchors(items, chunks);
  const tellings = items.map((item) => eachField((field) => toldIn(item, field)));
  const said = new Set(tellings.flatMap((one) => FIELDS.flatMap((field) => one[field])));
  return {
    ...evidence,
    items,
    tellings,
    anchors: named,
    reaches: named.map((anchor) => reachOf(anchor, stops, evidence)),
    strays,
    strangers: strays.filter((chunk) => !isOrdinary(wordOf(chunk)) && !isTradeWord(wordOf(chunk))),
    figures: loose.filter((chunk) => tokens[chunk.from]?.kind === 'number'),
    lost: chunks.filter((chunk) => MEANT.has(chunk.kind) && !said.has(meaningOf(chunk))),
    stops,
  };
}

const NOTHING: readonly string[] = [];

/** What an item says in a field; nothing where there is no such item. */
export const told = ({ tellings }: Surroundings, at: number, field: Field): readonly string[] =>
  tellings[at]?.[field] ?? NOTHING;

/** Rare in ordinary talk, so likely to have been the point. */
export const isRare = (word: string): boolean => !isEveryday(word);

/** An item's own stretch goes from the thing named before it to the thing named after, within its sentence. */
function reachOf(
  anchor: Chunk | null,
  stops: readonly number[],
  { chunks, tokens }: Evidence,
): { own: Span; sentence: Span } {
  if (anchor === null) {
    const whole = { from: 0, to: tokens.length };
    return { own: whole, sentence: whole };
  }
  const sentence = {
    from: (stops.findLast((stop) => stop < anchor.from) ?? -1) + 1,
    to: stops.find((stop) => stop >= anchor.from) ?? tokens.length,
  };
  const things = chunks.filter((chunk) => chunk.kind === 'part' || chunk.kind === 'item');
  const before = things.findLast((chunk) => chunk.to <= anchor.from);
  const after = things.find((chunk) => chunk.from >= anchor.to);
  const own = {
    from: Math.max(sentence.from, before?.to ?? 0),
    to: Math.min(sentence.to, after?.from ?? tokens.length),
  };
  return { own, sentence };
}

export const within = (span: Span, chunks: readonly Chunk[]): Chunk[] =>
  chunks.filter((chunk) => chunk.from >= span.from && chunk.to <= span.to);

export const isAnyWithin = (span: Span, chunks: readonly Chunk[]): boolean =>
  chunks.some((chunk) => chunk.from >= span.from && chunk.to <= span.to);
