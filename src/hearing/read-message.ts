import { applyCorrections } from './binding/corrections.js';
import { settle, type Setting } from './binding/acts.js';
import { clausesOf } from './binding/clauses.js';
import { applyDenials } from './binding/denials.js';
import { itemsOf, joinClauses } from './binding/items.js';
import { mentionsOf } from './binding/mentions.js';
import { plainFigures } from './binding/measured.js';
import type { Listener } from './listener.js';
import { asks, questionOf } from './questions.js';
import type { ItemReading, Reading } from './reading.js';
import type { Chunk, ChunkOf } from './tagging/chunk.js';
import { tag } from './tagging/tag.js';
import { figures } from './text/number-words.js';
import { joinTokens, tokenise, type Token } from './text/tokens.js';

export type { Known, Listener } from './listener.js';

/** Words beyond this many are no bench message: the rest is kept, not read. */
const LONGEST = 400;

const isOrdinary = (): boolean => false;

function settingOf(chunks: readonly Chunk[], tokens: readonly Token[]): Setting {
  return {
    test: chunks.some((chunk) => chunk.kind === 'act' && chunk.act === 'tested' && chunk.outcome === null),
    owner:
      chunks.some((chunk) => chunk.kind === 'owner') ||
      tokens.some((token) => /^(he|she|he's|she's|owner)$/.test(token.word)),
  };
}

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
  (item.act === 'finding' ||
    item.act === 'promised' ||
    item.act === 'stripped' ||
    item.act === 'fitted' ||
    item.act === 'back' ||
    item.act === 'sent' ||
    item.act === 'ordered');

/** A thing alone with nothing said of it is a finding of nothing only where a clause denied something. */
function readItems(chunks: readonly Chunk[], tokens: readonly Token[], listener: Listener): ItemReading[] {
  const setting = settingOf(chunks, tokens);
  const settled = chunks.map((chunk) => settle(chunk, setting));
  const elements = mentionsOf(settled, tokens);
  const pointsBack = chunks.some((chunk) => chunk.kind === 'pronoun' || chunk.kind === 'also');
  const clauses = joinClauses(clausesOf(elements, tokens));
  return itemsOf(clauses, setting, tokens, listener.known, pointsBack).filter((item) => !empty(item));
}

/** Reads one message from the bench. Pure: the same text and listener give the same reading; never throws. */
export function readMessage(text: string, listener: Listener): Reading {
  const tokens = figures(tokenise(text)).slice(0, LONGEST);
  const heard = joinTokens(tokens);
  const tagged = tag(tokens, listener, isOrdinary);
  const machine =
    tagged.find((chunk): chunk is ChunkOf<'machine'> => chunk.kind === 'machine')?.machine ?? null;
  if (asks(text)) {
    const question = questionOf(tokens, tagged);
    if (question !== null) return { text, heard, act: 'question', machine, items: [], question };
  }
  const chunks = applyDenials(applyCorrections(plainFigures(tagged, tokens), tokens), tokens);
  const items = readItems(chunks, tokens, listener);
  return { text, heard, act: items[0]?.act ?? 'note', machine, items, question: null };
}
