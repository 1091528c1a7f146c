import type { Chunk } from '../tagging/chunk.js';
import { hasPost, wordOf, type State } from './clause-state.js';
import type { Element } from './mentions.js';

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

/** "pawl rounded, ratchet chipped, both new": of two single things told apart, both are meant. */
export function bothOf(state: State, element: Element, at: number): boolean {
  if (element.kind !== 'count' || !element.both) return false;
  const next = state.elements[at + 1];
  const spoken = state.clauses.flatMap((clause) => clause.mentions);
  const opens = state.clause.mentions.length === 0 && state.clause.said.length === 0;
  if (opens && spoken.length === 2 && spoken.every((mention) => mention.count === null))
    return next !== undefined && /^(remedy|process|act|supplier|of|copula)$/.test(next.kind);
  if (state.link !== 'comma') return false;
  const here = state.clause.mentions;
  const before = state.clauses
    .filter((clause) => clause.mentions.length > 0)
    .flatMap((clause) => clause.mentions);
  const single =
    here.length === 1 && here[0]?.part?.plural === false && before.length === 1 && hasPost(state.clause);
  return single && next !== undefined && /^(remedy|process|act|supplier|of)$/.test(next.kind);
}

/** "glass is missing and the holder is rusty, replace both": as many as were spoken of, one by one. */
export function decidesAll(state: State, element: Element, at: number): boolean {
  if (element.kind !== 'count' || state.clauses.length === 0) return false;
  const spoken = [...state.clauses, state.clause].flatMap((clause) => clause.mentions);
  const whole = element.both || wordOf(state, element) === 'all';
  const decision = state.clause.said.at(-1);
  const next = state.elements[at + 1];
  return (
    whole &&
    spoken.length === element.count &&
    spoken.every((mention) => mention.count === null) &&
    (decision?.kind === 'remedy' || decision?.kind === 'process') &&
    state.tokens.slice(decision.to, element.from).every(({ word }) => /^(for|of|the)$/.test(word)) &&
    (next === undefined || /^(break|of|supplier|money|date|and)$/.test(next.kind))
  );
}
