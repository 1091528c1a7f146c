import type { ItemReading } from './reading.js';
import type { Chunk } from './tagging/chunk.js';
import type { Token } from './text/tokens.js';

/** The shop's own things, the weather and whoever works there: no parts of a machine. */
const SHOP =
  /^(shutter|shutters|door|doors|roof|gutter|gutters|rain|snow|van|vans|lorry|kettle|tea|mug|mugs|lathe|drill|compressor|reamer|reamers|spanner|spanners|vice|heater|radio|dinner|lunch|shed|booth|floor|window|skip|whoever)$/;

/** "don't use the bolts in the jar", "cancel that carb": told to somebody, found of nothing. */
const FORBIDS = /^(don't|never)$/;
const HANDLES = /^(use|touch|open|move|borrow|throw|lose|mix|let|put|leave|lend|sit|park)$/;
const CANCELS = /^(cancel|cancelled)$/;

/** "oh my back, too old for lifting engines": a thing that comes up in a turn of speech, and nothing told of it. */
const onlyAside = (items: readonly ItemReading[], chunks: readonly Chunk[]): boolean =>
  items.length > 0 &&
  items.every((item) => bare(item) && item.place.length === 0 && item.count === null) &&
  chunks.some(({ kind }) => kind === 'aside') &&
  !chunks.some(({ kind }) => kind === 'denial') &&
  !chunks.some((chunk, at) => chunk.kind === 'part' && chunks[at + 1]?.kind === 'copula') &&
  chunks.filter(({ kind }) => kind === 'word').length > 2;

/** Talk of the shop itself or a word to its people, with nothing told of a part. */
function ofTheShop(
  items: readonly ItemReading[],
  chunks: readonly Chunk[],
  tokens: readonly Token[],
): boolean {
  const first = tokens.find(({ kind }) => kind === 'word');
  const second = first === undefined ? undefined : tokens[tokens.indexOf(first) + 1];
  if (first !== undefined && FORBIDS.test(first.word) && HANDLES.test(second?.word ?? '')) return true;
  if (first !== undefined && CANCELS.test(first.word) && items.every(bare)) return true;
  if (onlyAside(items, chunks)) return true;
  const shop = tokens.some(({ word }) => SHOP.test(word));
  const ofPart = chunks.some((chunk) => chunk.kind === 'part' && !SHOP.test(chunk.said));
  return (
    shop &&
    !ofPart &&
    !items.some((item) => item.item !== null || (item.outcome !== null && item.act !== 'back'))
  );
}

const FILL =
  /^(needs|need|doing|done|wants|want|have|ready|got|get|i|so|well|right|ok|he|she|we|you|then|now|for|just|only|will|can|do|'ll|'d|said|thing|bit|yes|no|be|about|please|mate|think|reckon|make|let|me|us|say|all|out|it|them|up|by|until|till|not|this|that|d|ta|cheers|should|could|would|when|if|as|or|cost|costs|price|quoted|quotes|quote|call|than|thought|enough|more|less|cheap|dear|dearer|came|comes|from|has|gone|'s|'re|at|of)$/;

/** A thing named and nothing told of it. */
const bare = (item: ItemReading): boolean =>
  item.act === 'finding' &&
  item.conditions.length + item.processes.length + item.readings.length === 0 &&
  item.remedy === null &&
  item.cost === null &&
  item.due === null &&
  item.supplier === null &&
  item.stored === null;

const LEADS_IN =
  /^(must|need|gotta|got|have|remember|remind|me|i|'ll|please|better|should|also|and|now|then|don't|forget)$/;

/** A call to make names what it is about, and tells nothing of it. */
const CALLS = /^(ring|call|phone|text|email|message|remind|remember|chase|chased|ask|tell)$/;

/** Talk of other things that happens to hold a day or a trade: no part, no number, and too many words left over. */
export function isTalk(
  items: readonly ItemReading[],
  chunks: readonly Chunk[],
  tokens: readonly Token[],
): boolean {
  if (ofTheShop(items, chunks, tokens)) return true;
  if (chunks.some((chunk) => chunk.kind === 'pronoun') && items.some((item) => item.remedy !== null))
    return false;
  const opening = chunks.find(
    (chunk) => !(chunk.kind === 'word' && LEADS_IN.test(chunk.word)) && chunk.kind !== 'of',
  );
  const calls = opening?.kind === 'word' && CALLS.test(opening.word);
  if (
    calls &&
    items.every((item) =>
      bare({
        ...item,
        act: item.act === 'promised' ? 'finding' : item.act,
        supplier: null,
        due: null,
        remedy: item.remedy === 'send-out' ? null : item.remedy,
      }),
    )
  )
    return true;
  const about = items.some(
    (item) =>
      item.part !== null ||
      item.item !== null ||
      item.readings.some((one) => one.quantity !== 'other') ||
      (item.act !== 'finding' && item.act !== 'promised'),
  );
  if (about || items.length === 0) return false;
  const left = chunks.filter(
    (chunk) =>
      chunk.kind === 'aside' ||
      (chunk.kind === 'word' && /^[a-z]/.test(chunk.word) && !FILL.test(chunk.word)),
  );
  const told = chunks.filter((chunk) =>
    ['money', 'measure', 'process', 'date', 'supplier', 'stored'].includes(chunk.kind),
  ).length;
  return left.length >= 2 + (told > 1 ? 1 : 0) || (left.length > 0 && left.length >= told && told < 2);
}
