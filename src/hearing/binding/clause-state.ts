import type { Chunk } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { FEATURE, type Element, type Mention } from './mentions.js';

/** Things spoken of together, and what is said of them. */
export type Clause = {
  mentions: Mention[];
  said: Chunk[];
  /** Said of everything in the message ("both to the painter"). */
  all: boolean;
  /** "as well", "same with": what was said of the last is said of these too. */
  same: boolean;
  /** "along with": what was decided or done is said of these too, not what was found. */
  along: boolean;
  /** How many of `said` came before the first mention. */
  fore: number;
  /** Something was told in words that the reader doesn't know. */
  opaque: boolean;
  /** Told of more than one thing: "new ones", "replace them". */
  many: boolean;
  /** Named with a colon, for what comes after: "forks: …". */
  header: boolean;
  /** Follows what came before in the same sentence. */
  linked: boolean;
  /** Words that mean nothing to the reader stand in it: something may have been told. */
  strange: boolean;
};

export const newClause = (): Clause => ({
  mentions: [],
  said: [],
  all: false,
  same: false,
  along: false,
  fore: 0,
  opaque: false,
  many: false,
  header: false,
  linked: false,
  strange: false,
});

/** What has been split so far. */
export type State = {
  tokens: readonly Token[];
  elements: readonly Element[];
  clauses: Clause[];
  clause: Clause;
  /** Where in `said` the words after the last comma or "and" begin. */
  soft: number | null;
  link: 'none' | 'comma' | 'and';
};

export const hasPost = (clause: Clause): boolean => clause.said.length > clause.fore;

/** Ends the running clause. */
export function close(state: State, linked = true): void {
  const { clause } = state;
  if (clause.mentions.length > 0 || clause.said.length > 0 || clause.same) state.clauses.push(clause);
  state.clause = { ...newClause(), linked };
  state.soft = null;
  state.link = 'none';
}

export const wordOf = (state: State, element: Element | undefined): string =>
  element === undefined || element.kind === 'mention' ? '' : wordAt(state.tokens, element.from);

const LOCATES =
  /^(at|near|beside|beneath|above|below|next|close|just|out|in|on|by|around|round|along|with|under|through|from|of|inside|behind|between|across|against|off|over|into)$/;

/** "the bolt that holds the strap". */
const HOLDS = /^(holds|holding|retains|retaining|secures|securing|locates|clamps|fixes|carries|supports)$/;

/** "put the engine back in the frame": what a thing goes into or comes off is not what was handled. */
function putInto(state: State, at: number): boolean {
  const { clause, tokens } = state;
  const here = state.elements[at];
  const last = clause.mentions.at(-1);
  if (here?.kind !== 'mention' || last === undefined || state.link !== 'none') return false;
  // "took the guard off the stays are bent"
  if (/^(copula|condition)$/.test(state.elements[at + 1]?.kind ?? '')) return false;
  const handled = clause.said.some((one) => one.kind === 'act' && /^(fitted|stripped)$/.test(one.act));
  const article = /^(the|its|his|my|our|their)$/.test(wordAt(tokens, here.from - 1)) ? 1 : 0;
  const lead = wordAt(tokens, here.from - 1 - article);
  return (
    handled &&
    article === 1 &&
    here.from - article - last.to <= 4 &&
    /^(in|into|on|onto|to|off|from|of)$/.test(lead)
  );
}

/** "cracked at the base flange", "bodged with a house screw": where or with what, of the thing already spoken of. */
export function locates(state: State, at: number): boolean {
  const { clause, elements } = state;
  if (clause.mentions.length > 0 && HOLDS.test(wordOf(state, elements[at - 1]))) return true;
  if (putInto(state, at)) return true;
  if (clause.mentions.length === 0 || !hasPost(clause)) return false;
  const here = elements[at];
  const told = elements[at + 1]?.kind === 'condition' || elements[at + 1]?.kind === 'copula';
  // "gear chipped, two teeth"
  if (here?.kind === 'mention' && here.part !== null && FEATURE.test(here.part.said) && !told) return true;
  const ending = clause.said.at(-1);
  if (
    state.soft === null &&
    ending?.kind === 'condition' &&
    /^(off|from|in|on)$/.test(wordAt(state.tokens, ending.to - 1)) &&
    ending.to - ending.from > 1
  )
    return true;
  let back = at - 1;
  while ((elements[back]?.kind === 'word' || elements[back]?.kind === 'article') && back > at - 4) back -= 1;
  if (!LOCATES.test(wordOf(state, elements[back])) || elements[back]?.kind !== 'of') return false;
  const last = clause.said.at(-1);
  const headed =
    clause.mentions.length === 1 &&
    state.soft === clause.fore &&
    clause.said.length > clause.fore &&
    last?.kind === 'condition';
  if (headed && elements[at + 1]?.kind !== 'condition' && elements[at + 1]?.kind !== 'copula') return true;
  if (state.soft !== null)
    return wordOf(state, elements[at - 1]) === 'on' && elements[at - 2]?.kind === 'and';
  if (elements[at + 1]?.kind === 'condition' || elements[at + 1]?.kind === 'copula') return false;
  return (
    last?.kind === 'condition' ||
    last?.kind === 'measure' ||
    last?.kind === 'denial' ||
    (last?.kind === 'act' && last.act === 'tested') ||
    (last?.kind === 'act' && wordOf(state, elements[at - 1]) !== 'from' && last.act === 'fitted')
  );
}
