import type { Chunk } from '../tagging/chunk.js';
import { hasPost, wordOf, type State } from './clause-state.js';
import type { Element } from './mentions.js';

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

const LEADS_ON = /^(want|wants|need|needs|to|be|could|should|will|must|can|'ll|have|getting|going)$/;
const DECIDES = /^(remedy|process|act|supplier|of)$/;

/** Whether what is told next goes on to decide something: "both new", "all three want replacing", "both to the plater". */
function decidesNext(state: State, at: number, more = ''): boolean {
  let ahead = at + 1;
  while (LEADS_ON.test(wordOf(state, state.elements[ahead])) && state.elements[ahead]?.kind === 'word')
    ahead += 1;
  const next = state.elements[ahead];
  return next !== undefined && (DECIDES.test(next.kind) || next.kind === more);
}

/** "bush worn, pawl chipped, rod bent. All three new", "all want new": as many as were told of one by one. */
function allTold(state: State, element: Element, at: number): boolean {
  const said = wordOf(state, element);
  if (said !== 'all' || (element.kind !== 'count' && element.kind !== 'word')) return false;
  const spoken = [...state.clauses, state.clause].flatMap((clause) => clause.mentions);
  const uncounted = spoken.every((mention) => mention.count === null);
  const singly = spoken.length > 1 && (element.kind === 'word' || uncounted);
  const begins =
    (state.clause.mentions.length === 0 && state.clause.said.length === 0) || state.link === 'comma';
  const told = element.kind === 'word' || element.count === spoken.length;
  return singly && begins && told && decidesNext(state, at);
}

/** "inlet valve pitted, exhaust valve burnt, pair of new ones": one new for each of two told of. */
function pairOfNew(state: State, element: Element, at: number): boolean {
  const next = state.elements[at + 1];
  if (element.kind !== 'count' || element.count !== 2 || next?.kind !== 'remedy' || next.remedy !== 'replace')
    return false;
  const spoken = [...state.clauses, state.clause].flatMap((clause) => clause.mentions);
  return (
    wordOf(state, element) !== '2' &&
    spoken.length === 2 &&
    spoken.every((mention) => mention.count === null && mention.part?.plural === false)
  );
}

/** "pawl rounded, ratchet chipped, both new": of two single things told apart, both are meant. */
export function bothOf(state: State, element: Element, at: number): boolean {
  if (allTold(state, element, at) || pairOfNew(state, element, at)) return true;
  if (element.kind !== 'count' || !element.both) return false;
  const spoken = state.clauses.filter((clause) => !clause.header).flatMap((clause) => clause.mentions);
  const opens = state.clause.mentions.length === 0 && state.clause.said.length === 0;
  if (opens && spoken.length === 2 && spoken.every((mention) => mention.count === null))
    return decidesNext(state, at, 'copula');
  const here = state.clause.mentions;
  const before = state.clauses
    .filter((clause) => clause.mentions.length > 0)
    .flatMap((clause) => clause.mentions);
  const told = hasPost(state.clause) || state.clause.same;
  const single = here.length === 1 && here[0]?.part?.plural === false && before.length === 1 && told;
  return single && decidesNext(state, at);
}

/** "glass is missing and the holder is rusty, replace both": as many as were spoken of, one by one. */
export function decidesAll(state: State, element: Element, at: number): boolean {
  if (element.kind !== 'count' || state.clauses.length === 0) return false;
  const spoken = [...state.clauses, state.clause].flatMap((clause) => clause.mentions);
  const whole =
    element.both ||
    state.tokens.slice(element.from, element.to).some(({ word }) => /^(all|pair|set|them)$/.test(word));
  const decision = state.clause.said.at(-1);
  const next = state.elements[at + 1];
  return (
    whole &&
    spoken.length === element.count &&
    spoken.every((mention) => mention.count === null) &&
    (decision?.kind === 'remedy' || decision?.kind === 'process') &&
    state.tokens.slice(decision.to, element.from).every(({ word }) => /^(for|of|the)$/.test(word)) &&
    (next === undefined || /^(break|of|supplier|money|date|and|pronoun)$/.test(next.kind))
  );
}
