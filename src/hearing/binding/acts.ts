import type { Act, Outcome } from '../reading.js';
import type { Chunk, ChunkOf, Meaning } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt, wordsOf } from '../text/word-at.js';

export type Told = { act: Act; outcome: Outcome | null; sure: boolean };

const outcomesOf: Record<'back' | 'tested' | 'agreed', readonly Outcome[]> = {
  back: ['all', 'part', 'refused'],
  tested: ['pass', 'fail'],
  agreed: ['yes', 'no', 'talk'],
};

const has = (said: readonly Chunk[], kind: Chunk['kind']): boolean =>
  said.some((chunk) => chunk.kind === kind);

type Act_ = ChunkOf<'act'>;

/** Whether the message as a whole is about a test or has an owner speak: the sense of "passed" and "happy with" hangs on it. */
export type Setting = { test: boolean; owner: boolean; returned: boolean; came: boolean };

const COMING = /^(back|came|come|comes|arrived|here|there|landed|home|in|turned|received|delivered)$/;

/** "full set", "none short": says how much of it came, where something did. */
export const onlyExtent = (chunk: Chunk, tokens: readonly Token[]): boolean =>
  chunk.kind === 'act' &&
  chunk.act === 'back' &&
  chunk.outcome === 'all' &&
  !tokens.slice(chunk.from, chunk.to).some(({ word }) => COMING.test(word));

/** What is said of work that is not accepted. */
const VERDICT = /^(no good|no use|useless|no happy|not happy|rubbish)\b/;

/** "back from the chromer and it's no good to us": handed back undone or done badly, of what came back. */
const refuses = (chunk: Chunk, { returned, test }: Setting, tokens: readonly Token[]): boolean =>
  returned &&
  !test &&
  (chunk.kind === 'condition' || (chunk.kind === 'act' && /^(tested|agreed)$/.test(chunk.act))) &&
  VERDICT.test(
    tokens
      .slice(chunk.from, chunk.to)
      .map(({ word }) => word)
      .join(' '),
  );

const ALL_WELL = /\b(fine|good|ok|okay|lovely|sound|grand)$/;

/** An act's word in its other sense where the setting isn't the act's: "failed" is broken unless there was a test. */
export function settle(chunk: Chunk, setting: Setting, tokens: readonly Token[]): Chunk {
  if (refuses(chunk, setting, tokens))
    return { from: chunk.from, to: chunk.to, kind: 'act', act: 'back', outcome: 'refused' };
  if (chunk.kind !== 'act') return chunk;
  if (onlyExtent(chunk, tokens) && !setting.came)
    return { from: chunk.from, to: chunk.to, kind: 'word', word: '' };
  if (chunk.act === 'back' && chunk.outcome === 'part' && !setting.returned)
    return { from: chunk.from, to: chunk.to, kind: 'word', word: '' };
  const stands =
    chunk.outcome === null ||
    (chunk.act !== 'tested' && chunk.act !== 'agreed') ||
    (chunk.act === 'tested' && setting.test) ||
    (chunk.act === 'agreed' && setting.owner);
  if (stands) return chunk;
  const other = chunk.or?.find((meaning) => meaning.kind === 'condition' || meaning.kind === 'remedy');
  // "they're all fine": how things are, where nothing was tested.
  if (other === undefined && chunk.outcome === 'pass' && ALL_WELL.test(wordsOf(tokens, chunk)))
    return { from: chunk.from, to: chunk.to, kind: 'condition', condition: 'good' };
  const meaning: Meaning = other ?? { kind: 'word', word: '' };
  return { from: chunk.from, to: chunk.to, ...meaning };
}

/** "they sent four", "Marlow sent the gaskets": what others send has come. */
export function delivered(chunk: Chunk, before: Chunk | undefined, tokens: readonly Token[]): Chunk {
  if (chunk.kind !== 'act' || chunk.act !== 'sent' || tokens[chunk.from]?.word !== 'sent') return chunk;
  const others =
    (before?.kind === 'supplier' && before.speaks) ||
    /^(they|he|she|who)$/.test(wordAt(tokens, chunk.from - 1));
  return others ? { ...chunk, act: 'back' } : chunk;
}

function outcomeFor(act: Act, acts: readonly Act_[]): Outcome | null {
  if (act !== 'back' && act !== 'tested' && act !== 'agreed') return null;
  const allowed = outcomesOf[act];
  return (
    acts.map((chunk) => chunk.outcome).findLast((outcome) => outcome !== null && allowed.includes(outcome)) ??
    null
  );
}

/** "skim it at Quilter", "to be skimmed at Calder": work still to be done there, where "is at Calder for a skim" is there. */
const toBeDone = (said: readonly Chunk[], tokens: readonly Token[]): boolean =>
  said.some(
    (chunk) =>
      chunk.kind === 'process' &&
      !/^(for|a)$/.test(wordAt(tokens, chunk.from - 1)) &&
      (!/ed$/.test(wordAt(tokens, chunk.to - 1)) || tokens[chunk.from - 1]?.word === 'be'),
  );

/** "back Thursday", of a Thursday to come: not back yet. */
const isAhead = (back: Act_, date: ChunkOf<'date'>, tokens: readonly Token[], today: string): boolean =>
  date.date > today &&
  date.from - back.to <= 1 &&
  date.from >= back.to &&
  tokens[back.to - 1]?.word === 'back' &&
  /^(back|is|are|'s|'re|be)$/.test(wordAt(tokens, back.from));

/** What, beside a day, makes a finding of a clause. */
const TELLING = ['condition', 'process', 'measure', 'stored'] as const;

/** What a clause does, from its words: the act named last, or what a supplier, a date, a bag by themselves tell. */
export function actOf(
  said: readonly Chunk[],
  setting: Setting,
  tokens: readonly Token[],
  today: string,
): Told {
  const acts = said.filter((chunk): chunk is Act_ => chunk.kind === 'act');
  const date = said.find((chunk): chunk is ChunkOf<'date'> => chunk.kind === 'date');
  const speaker = said.some((chunk) => chunk.kind === 'supplier' && chunk.speaks);
  const agreed = acts.find((chunk) => chunk.act === 'agreed');
  if (agreed !== undefined && setting.owner)
    return { act: 'agreed', outcome: outcomeFor('agreed', acts), sure: true };
  const promise = acts.some((chunk) => chunk.act === 'promised');
  const others = acts.filter((chunk) => chunk.act !== 'promised' && chunk.act !== 'agreed');
  const sent = others.findLast((chunk) => chunk.act === 'sent' || chunk.act === 'ordered');
  const decided = said.some((chunk) => chunk.kind === 'remedy');
  if (date !== undefined && sent === undefined && (promise || (speaker && !decided)))
    return { act: 'promised', outcome: null, sure: true };
  const last = others.at(-1);
  // "hung on hook 5", "put in the tray": away on a hook, not on the machine.
  if (last?.act === 'fitted' && said.some((chunk) => chunk.kind === 'stored' && chunk.from >= last.to))
    return { act: 'stripped', outcome: null, sure: true };
  // "the tank's been put back a week": put off, not put on.
  if (last?.act === 'fitted' && date !== undefined && date.from === last.to)
    return { act: 'promised', outcome: null, sure: true };
  if (last?.act === 'back' && date !== undefined && (date.by || isAhead(last, date, tokens, today))) {
    if (sent !== undefined) return { act: sent.act, outcome: null, sure: true };
    return decided || has(said, 'process')
      ? { act: 'finding', outcome: null, sure: true }
      : { act: 'promised', outcome: null, sure: true };
  }
  // "the gasket's to follow in a fortnight"
  if (
    last?.act === 'back' &&
    last.outcome === 'part' &&
    date !== undefined &&
    date.date > today &&
    others.length === 1
  )
    return { act: 'promised', outcome: null, sure: true };
  if (last !== undefined) return { act: last.act, outcome: outcomeFor(last.act, acts), sure: true };
  const held = said.some((chunk) => chunk.kind === 'supplier' && chunk.held);
  if (held && !decided && !has(said, 'condition') && !toBeDone(said, tokens))
    return { act: 'sent', outcome: null, sure: true };
  if (promise && date !== undefined && has(said, 'supplier') && !decided)
    return { act: 'promised', outcome: null, sure: true };
  if (
    date !== undefined &&
    has(said, 'supplier') &&
    !decided &&
    !has(said, 'process') &&
    !has(said, 'condition')
  )
    return { act: 'promised', outcome: null, sure: false };
  if (
    !decided &&
    !has(said, 'condition') &&
    said.some((chunk) => chunk.kind === 'measure' && chunk.quantity === 'torque')
  )
    return { act: 'fitted', outcome: null, sure: true };
  if (date !== undefined && !decided && !TELLING.some((kind) => has(said, kind)))
    return { act: 'promised', outcome: null, sure: true };
  const kept = has(said, 'stored') && !decided && !has(said, 'condition') && !has(said, 'measure');
  return kept
    ? { act: 'stripped', outcome: null, sure: true }
    : { act: 'finding', outcome: null, sure: true };
}
