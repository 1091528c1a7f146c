import { lexicon } from '../../trade/lexicon/load.js';
import type { ItemReading } from '../reading.js';
import type { Chunk } from '../tagging/chunk.js';
import { when, type Signs } from './signs.js';
import type { Surroundings } from './surroundings.js';

const words = (item: ItemReading): string[] => (item.part ?? '').split(/[ -]/);
const head = (item: ItemReading): string => words(item).at(-1) ?? '';

/** Called by the same noun, or one by a name that is a piece of the other's: perhaps one thing spoken of twice. */
function isKin(one: ItemReading, other: ItemReading): boolean {
  if (one.part === null || other.part === null) return false;
  return head(one) === head(other) || other.part.startsWith(`${one.part} `);
}

const isFaulty = ({ conditions }: ItemReading): boolean =>
  conditions.length > 0 && !conditions.includes('good');
const isDecided = ({ remedy }: ItemReading): boolean => remedy !== null;
const saysNoMoreThanWhatToDo = (item: ItemReading): boolean =>
  item.act === 'finding' && item.conditions.length + item.readings.length === 0;

/** How an item stands to the others: a thing spoken of twice, or in passing, is often read as one too many. */
export function relationSigns(around: Surroundings, at: number): Signs {
  const { items } = around;
  const item = items[at];
  if (item === undefined) return {};
  const [before, after] = [items.slice(0, at), items.slice(at + 1)];
  const openFault = (one: ItemReading): boolean => isFaulty(one) && !isDecided(one);
  const follows = saysNoMoreThanWhatToDo(item);
  return {
    kinBefore: when(before.some((other) => isKin(item, other))),
    kinAfter: when(after.some((other) => isKin(item, other))),
    pieceOfOther: when(before.some(({ part }) => part !== null && item.part?.startsWith(`${part} `))),
    mendsKin: when(follows && before.some((other) => openFault(other) && isKin(item, other))),
    mendsOther: when(follows && isDecided(item) && before.some(openFault)),
    mendedByKin: when(
      openFault(item) &&
        after.some((other) => isDecided(other) && saysNoMoreThanWhatToDo(other) && isKin(item, other)),
    ),
    mendedLater: when(openFault(item) && after.some((other) => isDecided(other) && !isFaulty(other))),
    othersDecided: when(openFault(item) && items.some((other) => other !== item && isDecided(other))),
    actAlone: when(items.length > 1 && items.every((other) => other === item || other.act !== item.act)),
    last: when(after.length === 0),
    unlisted: when(item.part !== null && lexicon.byName(item.part) === undefined),
    ...leadSigns(around, at),
    ...deedSigns(around, at),
  };
}

const LEADS = new Set(
  'in at on with to between from by for off under into inside against through over near as'.split(' '),
);

/** The little word that leads up to the name, articles and counts left out: "at the seam" tells where, not what. */
function leadSigns({ anchors, chunks, tokens }: Surroundings, at: number): Signs {
  const anchor = anchors[at] ?? null;
  if (anchor === null) return {};
  const skipped = new Set<Chunk['kind']>(['article', 'count', 'place']);
  const lead = chunks.findLast((chunk) => chunk.to <= anchor.from && !skipped.has(chunk.kind));
  const word = lead === undefined ? '' : (tokens[lead.to - 1]?.word ?? '');
  return {
    ...(LEADS.has(word) ? { led: 1, [`led by ${word}`]: 1 } : {}),
    ledByNew: when(/^(new|fresh|another|replacement)$/.test(word)),
    ledByAnd: when(lead?.kind === 'and'),
    unled: when(lead === undefined),
  };
}

const DOERS = new Set('i we myself here house ourselves'.split(' '));
const DEEDS = new Set('it them both those these here up out off down back'.split(' '));

/** Words of doing in the sentence of a thing of which nothing was decided, and what was decided without a word for it. */
function deedSigns(around: Surroundings, at: number): Signs {
  const item = around.items[at];
  const sentence = around.reaches[at]?.sentence;
  if (item === undefined || sentence === undefined) return {};
  const undecided = item.remedy === null;
  const doer = (from: number, to: number): boolean =>
    undecided && around.tokens.some(({ word }, index) => index >= from && index < to && DOERS.has(word));
  const strayDeed =
    undecided && around.strays.some((stray) => DEEDS.has(around.tokens[stray.to]?.word ?? ''));
  return {
    doerUndecided: when(doer(sentence.from, sentence.to)),
    doerSomewhere: when(doer(0, around.tokens.length)),
    deedUndecided: when(strayDeed),
    processUndecided: when(item.processes.length > 0 && item.remedy === null && item.act === 'finding'),
    sentForNothing: when(item.remedy === 'send-out' && item.processes.length === 0 && item.supplier === null),
    oddReading: when(item.readings.some(({ quantity }) => quantity === 'other')),
    soundButMeasured: when(item.conditions.includes('good') && item.readings.length > 0),
    doneDeed: when(item.act !== 'finding' && item.remedy !== null),
    faultOfDoing: when(item.act !== 'finding' && isFaulty(item)),
  };
}
