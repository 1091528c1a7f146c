import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { hasPost, wordOf, type State } from './clause-state.js';
import type { Element, Mention } from './mentions.js';

/** "footrest rubbers perished, both of them": of a single kind of thing spoken of, how many they are. */
export function countedTogether(state: State, element: Chunk): boolean {
  if (element.kind !== 'pronoun' || wordOf(state, element) !== 'both') return false;
  const spoken = [...state.clauses, state.clause].flatMap((clause) => clause.mentions);
  const last = spoken.at(-1);
  const kinds = new Set(spoken.map((mention) => mention.part?.part));
  const many = last?.part?.plural === true || spoken.length === 1;
  if (last === undefined || last.count !== null || !many || (kinds.size > 1 && last.part?.plural !== true))
    return false;
  last.count = 2;
  last.both = true;
  return true;
}

/** "both in the pill tin", "all four", ", front pair": a count that ends its phrase counts the last thing spoken of. */
export function trailingCount(state: State, element: Chunk, at: number): boolean {
  if (element.kind !== 'count') return false;
  const next = state.elements[at + 1];
  const last = state.clause.mentions.at(-1);
  const closed =
    next === undefined ||
    next.kind === 'break' ||
    next.kind === 'stored' ||
    next.kind === 'of' ||
    element.both;
  const whole = element.both || element.to - element.from > 1;
  if (last === undefined || last.count !== null || !closed || !whole) return false;
  if (state.clause.mentions.length > 1) return true;
  last.count = element.count;
  last.both ||= element.both;
  if (wordOf(state, element) === 'all') last.extent = 'whole';
  else if (element.of) last.extent = 'some';
  return true;
}

/** What a decision, an act or a place for all of them begins with. */
const TELLS = /^(remedy|process|act|supplier|of|copula)$/;

/** The things told of so far; what a colon or a comma heads the message with is no thing of its own. */
const spokenOf = (state: State): Mention[] =>
  [...state.clauses, state.clause]
    .filter((clause) => !(clause.header && clause.said.length === 0))
    .flatMap((clause) => clause.mentions);

/** "both", "all three", "the pair", "the two of them": not some of a number. */
const isWhole = (state: State, element: ChunkOf<'count'>): boolean =>
  element.both ||
  state.tokens.slice(element.from, element.to).some(({ word }) => /^(all|pair|set|them|lot)$/.test(word));

/** How many the things told of apart are together, a single one where no number was said. */
const together = (spoken: readonly Mention[]): number =>
  spoken.reduce((sum, mention) => sum + (mention.count ?? 1), 0);

/** "pawl rounded, ratchet chipped, both new": of as many single things told apart, all are meant. */
export function bothOf(state: State, element: Element, at: number): boolean {
  if (element.kind !== 'count' || element.count < 2 || !isWhole(state, element)) return false;
  const spoken = spokenOf(state);
  if (spoken.length < 2 || together(spoken) !== element.count) return false;
  const after = state.elements[at + 1];
  const next = after?.kind === 'pronoun' ? state.elements[at + 2] : after;
  if (next === undefined || !TELLS.test(next.kind)) return false;
  const opens = state.clause.mentions.length === 0 && state.clause.said.length === 0;
  if (opens) return true;
  const single = spoken.every((mention) => mention.part?.plural !== true);
  const told = hasPost(state.clause) || state.clause.same;
  return single && told && state.clause.mentions.length === 1;
}

/** "glass is missing and the holder is rusty, replace both": as many as were spoken of, one by one. */
export function decidesAll(state: State, element: Element, at: number): boolean {
  if (element.kind !== 'count' || state.clauses.length === 0) return false;
  const spoken = spokenOf(state);
  const decision = state.clause.said.at(-1);
  const next = state.elements[at + 1];
  return (
    isWhole(state, element) &&
    spoken.length > 1 &&
    together(spoken) === element.count &&
    (decision?.kind === 'remedy' || decision?.kind === 'process') &&
    state.tokens.slice(decision.to, element.from).every(({ word }) => /^(for|of|the)$/.test(word)) &&
    (next === undefined || /^(break|of|supplier|money|date|and|word|pronoun|aside)$/.test(next.kind))
  );
}

/** "adjuster stripped, pushrod bent. All want new": everything told of before. */
export const allWant = (state: State, element: Element, at: number): boolean =>
  element.kind === 'word' &&
  element.word === 'all' &&
  state.clause.mentions.length === 0 &&
  state.clause.said.length === 0 &&
  spokenOf(state).length > 1 &&
  /^(remedy|process|act|supplier|stored)$/.test(state.elements[at + 1]?.kind ?? '');
