import { applyCorrections } from './binding/corrections.js';
import { delivered, onlyExtent, settle, type Setting } from './binding/acts.js';
import { contextNouns } from './binding/compounds.js';
import { clausesOf } from './binding/clauses.js';
import { applyDenials } from './binding/denials.js';
import { itemsOf } from './binding/items.js';
import { keptTogether, whyRefused } from './binding/returns.js';
import { ridesApart } from './binding/rides-apart.js';
import { joinClauses } from './binding/joining.js';
import { mentionsOf } from './binding/mentions.js';
import { bareMeasures, bareSums } from './binding/bare-figures.js';
import { particleActs } from './binding/particles.js';
import { settleSenses } from './binding/senses.js';
import type { Listener } from './listener.js';
import { asks, questionOf } from './questions.js';
import type { Act, ItemReading, Reading } from './reading.js';
import type { Chunk, ChunkOf } from './tagging/chunk.js';
import { doubtedTokens } from './sureness/doubts.js';
import type { Evidence } from './sureness/evidence.js';
import { markUnsure } from './sureness/mark-unsure.js';
import { misheardParts } from './repair/misheard.js';
import { smallSlips } from './repair/small-slips.js';
import { spellingSlips } from './repair/spelling.js';
import { isTradeWord } from './tagging/part-index.js';
import { isTalk } from './talk.js';
import { tag } from './tagging/tag.js';
import { unknownThings } from './tagging/unknown-things.js';
import { isOrdinary } from './text/ordinary-words.js';
import { figures } from './text/number-words.js';
import { joinTokens, tokenise, type Token } from './text/tokens.js';
import { wordsOf } from './text/word-at.js';

export type { Known, Listener } from './listener.js';

/** Words beyond this many are no bench message: the rest is kept, not read. */
const LONGEST = 400;

const TESTED = /^(test|tested|testing|passed|passes|pass|tester|rig)$/;

function settingOf(chunks: readonly Chunk[], tokens: readonly Token[]): Setting {
  const strong = chunks.some(
    (chunk) => chunk.kind === 'act' && chunk.act === 'agreed' && STRONG.test(wordsOf(tokens, chunk)),
  );
  return {
    came: chunks.some(
      (chunk) =>
        (chunk.kind === 'act' && /^(back|ordered|sent)$/.test(chunk.act) && !onlyExtent(chunk, tokens)) ||
        chunk.kind === 'supplier',
    ),
    returned: chunks.some(
      (chunk) =>
        (chunk.kind === 'act' &&
          chunk.act === 'back' &&
          chunk.outcome !== 'part' &&
          tokens[chunk.to - 1]?.word !== 'set') ||
        chunk.kind === 'count',
    ),
    test:
      tokens.some(
        (token, at) => TESTED.test(token.word) || (token.word === 'fail' && tokens[at - 1]?.word === 'a'),
      ) || chunks.some((chunk) => chunk.kind === 'act' && chunk.act === 'tested' && chunk.outcome === null),
    owner:
      strong ||
      chunks.some((chunk) => chunk.kind === 'owner') ||
      tokens.some((token) => /^(he|she|owner)$/.test(token.word)),
  };
}

/** Words that only an owner's answer has; "happy with" and the like need an owner beside them. */
const STRONG =
  /^(agreed|agrees|agree|agreed to|approved|approves|okayed|has agreed|says yes|said yes|says no|said no|yes to|no to|given the go ahead|gave the go ahead|go ahead|thumbs up|green light|won't pay|won't pay for|vetoed|declined|turned down|says go ahead|said go ahead|signed off|signed off on|wants to think|wants a think|wants to think about|said crack on|says crack on|given the nod|says no to|said no to|says yes to|said yes to)( |$)/;

/** Acts that tell nothing of themselves: of what, or of whom, isn't said. */
const TELLS_NOTHING_ALONE = new Set<Act>([
  'finding',
  'promised',
  'stripped',
  'fitted',
  'back',
  'sent',
  'ordered',
]);

/** Nothing that a bench would log: no thing spoken of and nothing told. */
const empty = (item: ItemReading): boolean =>
  item.part === null &&
  item.item === null &&
  item.cost === null &&
  item.due === null &&
  item.supplier === null &&
  item.readings.length === 0 &&
  item.stored === null &&
  item.remedy === null &&
  item.processes.length === 0 &&
  item.outcome === null &&
  TELLS_NOTHING_ALONE.has(item.act);

/** A thing alone with nothing said of it is a finding of nothing only where a clause denied something. */
function readItems(chunks: readonly Chunk[], tokens: readonly Token[], listener: Listener): ItemReading[] {
  const setting = settingOf(chunks, tokens);
  const settled = chunks.map((chunk, at) =>
    settle(delivered(chunk, chunks[at - 1], tokens), setting, tokens),
  );
  const elements = particleActs(mentionsOf(settled, tokens), tokens);
  const machines = chunks.filter((chunk): chunk is ChunkOf<'machine'> => chunk.kind === 'machine');
  const pointsBack = tokens.some((token) =>
    /^(it|them|they|those|that|these|both|same|other|too)$/.test(token.word),
  );
  const clauses = ridesApart(
    whyRefused(keptTogether(joinClauses(clausesOf(elements, tokens)), tokens), tokens),
    tokens,
  );
  const items = itemsOf(clauses, setting, tokens, listener.known, pointsBack, machines, listener.today)
    .map((item) =>
      pointsBack && item.part === null && item.item === null && item.conditions.length > 0
        ? { ...item, unsure: [...new Set([...item.unsure, 'part'])] }
        : item,
    )
    .filter((item) => !empty(item) || (pointsBack && item.conditions.length > 0));
  return isTalk(items, chunks, tokens) ? [] : items;
}

/** The words after repair: slips of a recogniser where the message was spoken, of the keys where it was typed. */
const repaired = (tokens: readonly Token[], listener: Listener): Token[] =>
  listener.spoken === true ? misheardParts(smallSlips(tokens), listener) : spellingSlips(tokens);

/** The machine first spoken of. */
const machineOf = (chunks: readonly Chunk[]): string | null =>
  chunks.find((chunk): chunk is ChunkOf<'machine'> => chunk.kind === 'machine')?.machine ?? null;

const isOrdinaryOrTrade = (word: string): boolean => isOrdinary(word) || isTradeWord(word);

/** A message as first understood, and what it was understood from. */
export function understood(text: string, listener: Listener): { reading: Reading; evidence: Evidence } {
  const said = tokenise(text);
  const tokens = repaired(figures(said).slice(0, LONGEST), listener);
  const doubted = doubtedTokens(said, tokens, listener.doubts ?? []);
  const heard = joinTokens(tokens);
  const tagged = tag(tokens, listener, isOrdinaryOrTrade);
  const spoken = listener.spoken === true;
  if (asks(text)) {
    const question = questionOf(tokens, settleSenses(tagged, tokens));
    if (question !== null)
      return {
        reading: { text, heard, act: 'question', machine: machineOf(tagged), items: [], question },
        evidence: { tokens, chunks: tagged, spoken, doubted },
      };
  }
  const chunks = bareSums(
    applyDenials(
      applyCorrections(
        bareMeasures(settleSenses(unknownThings(contextNouns(tagged, tokens), tokens), tokens), tokens),
        tokens,
      ),
      tokens,
    ),
    tokens,
  );
  const items = readItems(chunks, tokens, listener);
  return {
    reading: { text, heard, act: items[0]?.act ?? 'note', machine: machineOf(chunks), items, question: null },
    evidence: { tokens, chunks, spoken, doubted },
  };
}

/** Reads one message from the bench. Pure: the same text and listener give the same reading; never throws. */
export function readMessage(text: string, listener: Listener): Reading {
  const { reading, evidence } = understood(text, listener);
  return { ...reading, items: markUnsure(reading.items, evidence) };
}
