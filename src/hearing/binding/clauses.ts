import type { Token } from '../text/tokens.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { fits, pointing, type Element, type Mention } from './mentions.js';

/** Things spoken of together, and what is said of them. */
export type Clause = {
  mentions: Mention[];
  said: Chunk[];
  /** Said of everything in the message ("both to the painter"). */
  all: boolean;
  /** "as well", "same with": what was said of the last is said of these too. */
  same: boolean;
  /** How many of `said` came before the first mention. */
  fore: number;
};

const SAYS = new Set<Chunk['kind']>([
  'condition',
  'remedy',
  'process',
  'act',
  'supplier',
  'owner',
  'stored',
  'money',
  'measure',
  'quantity',
  'date',
  'denial',
  'count',
]);
/** What can stand before the thing it is said of, in one breath: "send the", "fitted new", "two bent". */
const LEADS = new Set<Chunk['kind']>(['act', 'remedy', 'process', 'owner', 'supplier', 'denial']);

const newClause = (): Clause => ({ mentions: [], said: [], all: false, same: false, fore: 0 });

type State = {
  tokens: readonly Token[];
  elements: readonly Element[];
  clauses: Clause[];
  clause: Clause;
  /** Where in `said` the words after the last comma or "and" begin. */
  soft: number | null;
  link: 'none' | 'comma' | 'and';
};

const hasPost = (clause: Clause): boolean => clause.said.length > clause.fore;

function close(state: State): void {
  const { clause } = state;
  if (clause.mentions.length > 0 || clause.said.length > 0 || clause.same) state.clauses.push(clause);
  state.clause = newClause();
  state.soft = null;
  state.link = 'none';
}

/** What of the running clause's words leads on to the mention that comes now. */
function takeLead(state: State, mention: Mention): Chunk[] {
  const { clause } = state;
  if (state.soft !== null) return clause.said.splice(Math.max(state.soft, clause.fore));
  let start = clause.said.length;
  let edge = mention.from;
  while (start > clause.fore) {
    const chunk = clause.said[start - 1];
    if (chunk === undefined) break;
    const near =
      edge - chunk.to <= 2 && !(chunk.kind === 'act' && PARTICLE.test(state.tokens[chunk.from]?.word ?? ''));
    const adjective = chunk.kind === 'condition' && edge === chunk.to && start - 1 > clause.fore;
    if (!near || !(LEADS.has(chunk.kind) || adjective)) break;
    edge = chunk.from;
    start -= 1;
  }
  return clause.said.splice(start);
}

/** Acts that are predicates of the thing before them: "gearbox out", "is off". */
const PARTICLE = /^(off|out|in|on|back|apart|'s|is|are|'re|was|were|now|all)$/;

const wordOf = (state: State, element: Element | undefined): string =>
  element === undefined || element.kind === 'mention' ? '' : (state.tokens[element.from]?.word ?? '');

const LOCATES =
  /^(at|near|beside|beneath|above|below|next|close|just|out|in|on|near|by|around|round|along|with|under|through|from|of|inside|behind|between|across|against|off|over|into)$/;

/** "the bolt that holds the strap". */
const HOLDS = /^(holds|holding|retains|retaining|secures|securing|locates|clamps|fixes|carries|supports)$/;

/** "cracked at the base flange", "bodged with a house screw": where or with what, of the thing already spoken of. */
function locates(state: State, at: number): boolean {
  const { clause, elements } = state;
  if (clause.mentions.length > 0 && HOLDS.test(wordOf(state, elements[at - 1]))) return true;
  if (clause.mentions.length === 0 || !hasPost(clause)) return false;
  const ending = clause.said.at(-1);
  if (
    state.soft === null &&
    ending?.kind === 'condition' &&
    /^(off|from|in|on)$/.test(state.tokens[ending.to - 1]?.word ?? '') &&
    ending.to - ending.from > 1
  )
    return true;
  let back = at - 1;
  while ((elements[back]?.kind === 'word' || elements[back]?.kind === 'article') && back > at - 4) back -= 1;
  if (!LOCATES.test(wordOf(state, elements[back])) || elements[back]?.kind !== 'of') return false;
  const last = clause.said.at(-1);
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

/** Whether the words after a listed mention, up to the next mention or break, tell something of it alone. */
function ownPredicate(elements: readonly Element[], at: number): boolean {
  for (let next = at + 1; next < elements.length; next += 1) {
    const element = elements[next];
    if (
      element === undefined ||
      element.kind === 'mention' ||
      element.kind === 'break' ||
      element.kind === 'and'
    )
      return false;
    if (
      element.kind === 'condition' ||
      (element.kind === 'act' && element.act !== 'promised' && element.act !== 'back') ||
      element.kind === 'remedy' ||
      element.kind === 'measure'
    )
      return true;
  }
  return false;
}

function addMention(state: State, mention: Mention, at: number): void {
  const { clause, elements } = state;
  if (locates(state, at)) {
    const fitted =
      state.elements[at - 2]?.kind === 'and' && /^(on|in)$/.test(wordOf(state, state.elements[at - 1]));
    if (fitted)
      clause.said.push({ from: mention.from, to: mention.to, kind: 'act', act: 'fitted', outcome: null });
    return;
  }
  if (clause.mentions.length === 0) {
    if (
      state.soft !== null &&
      state.soft > 0 &&
      (state.clauses.length > 0 || agreedBefore(clause, state.soft)) &&
      !clause.same
    ) {
      const lead = clause.said.splice(state.soft);
      close(state);
      state.clause.said = lead;
    }
    state.clause.fore = state.clause.said.length;
  } else if (
    (mention.back === 'place' && clause.fore === 0) ||
    hasPost(clause) ||
    (clause.fore > 0 && state.link !== 'none' && ownPredicate(elements, at))
  ) {
    const lead = takeLead(state, mention);
    close(state);
    state.clause.said = lead;
    state.clause.fore = lead.length;
  }
  state.clause.mentions.push(mention);
  state.soft = null;
  state.link = 'none';
}

const agreedBefore = (clause: Clause, until: number): boolean =>
  clause.said.slice(0, until).some((chunk) => chunk.kind === 'act' && chunk.act === 'agreed');

/** "and the bars no", "but not the bars": another answer of the owner begins a clause of its own. */
function addAnswer(state: State, chunk: ChunkOf<'act'>): void {
  const before = state.clause.said.find(
    (one): one is ChunkOf<'act'> => one.kind === 'act' && one.act === 'agreed',
  );
  if (before !== undefined && before.outcome !== chunk.outcome) close(state);
  state.clause.said.push(chunk);
}

const wordAt = (state: State, element: Chunk): string => state.tokens[element.from]?.word ?? '';

/** "… but not the bars", after a yes. */
function refusesRest(state: State, element: Element, at: number): boolean {
  const except =
    element.kind === 'act' &&
    element.act === 'back' &&
    element.outcome === 'part' &&
    /^(except|bar|apart|but)$/.test(wordAt(state, element));
  if (except)
    return [...state.clauses, state.clause].some((clause) => agreedBefore(clause, clause.said.length));
  if (
    element.kind !== 'denial' ||
    wordOf(state, element) !== 'not' ||
    wordOf(state, state.elements[at - 1]) !== 'but'
  )
    return false;
  return [...state.clauses, state.clause].some((clause) => agreedBefore(clause, clause.said.length));
}

const PREDICATES = new Set<Element['kind']>(['condition', 'act', 'measure', 'remedy', 'process']);

/** The element after an optional copula or "one". */
function predicate(state: State, at: number): Element | undefined {
  let next = at + 1;
  while (
    state.elements[next]?.kind === 'copula' ||
    /^(one|ones|all|both)$/.test(wordOf(state, state.elements[next]))
  )
    next += 1;
  return state.elements[next];
}

function addPointer(state: State, element: Chunk, at: number): boolean {
  const last =
    state.clause.mentions.at(-1) ??
    state.clauses.findLast((clause) => clause.mentions.length > 0)?.mentions.at(-1);
  if (element.kind === 'pronoun' && element.refers === 'other') {
    addMention(state, pointing(element, 'other', []), at);
    return true;
  }
  if (element.kind === 'place') {
    if (last?.part != null && !fits(element.place, last.part.sides)) return true;
    const fresh = state.clause.mentions.length > 0 && last !== undefined && state.link === 'none';
    const tells =
      PREDICATES.has(predicate(state, at)?.kind ?? 'word') &&
      !(hasPost(state.clause) && state.link === 'none' && state.elements[at - 1]?.kind === 'of');
    if (fresh && (!hasPost(state.clause) || !tells)) {
      if (!last.places.includes(element.place)) last.places.push(element.place);
    } else addMention(state, pointing(element, 'place', [element.place]), at);
    return true;
  }
  const one =
    element.kind === 'article' &&
    wordOf(state, element) === 'one' &&
    state.elements[at - 1]?.kind !== 'place';
  if ((element.kind === 'count' && !element.both) || one) {
    const follows = predicate(state, at);
    if (
      last === undefined ||
      follows === undefined ||
      (follows.kind !== 'condition' && (follows.kind !== 'act' || (one && follows.act !== 'back')))
    )
      return one;
    addMention(state, pointing(element, 'some', [], element.kind === 'count' ? element.count : 1), at);
    return true;
  }
  return false;
}

function addWord(state: State, element: ChunkOf<'word'>): void {
  if (
    /^(but|then|though|while|whereas|because|so|or|although|however|unless|until|if|when|once)$/.test(
      element.word,
    )
  )
    markSoft(state, 'and');
}

/** "both in the pill tin", "all four", ", front pair": a count that ends its phrase counts the last thing spoken of. */
function trailingCount(state: State, element: Chunk, at: number): boolean {
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
  return true;
}

/** Splits a message into clauses: each with the things spoken of and all that is said of them. */
export function clausesOf(elements: readonly Element[], tokens: readonly Token[]): Clause[] {
  const state: State = { tokens, elements, clauses: [], clause: newClause(), soft: null, link: 'none' };
  elements.forEach((element, at) => {
    if (element.kind === 'mention') addMention(state, element, at);
    else if (element.kind === 'break') {
      if (element.strength === 'full' && tokens[element.from]?.text !== ':') close(state);
      else markSoft(state, 'comma');
    } else if (element.kind === 'and') markSoft(state, 'and');
    else if (element.kind === 'word') addWord(state, element);
    else if (element.kind === 'pronoun' && element.refers === 'all') {
      const listed = state.clause.mentions.length === 1 && !hasPost(state.clause);
      if (listed || state.clauses.length === 0) state.clause.said.push(element);
      else {
        close(state);
        state.clause.all = true;
        state.clause.said.push(element);
      }
    } else if (element.kind === 'pronoun' && element.refers === 'same') {
      close(state);
      state.clause.same = true;
    } else if (element.kind === 'also') state.clause.same = true;
    else if (element.kind === 'act' && element.act === 'agreed') addAnswer(state, element);
    else if (refusesRest(state, element, at))
      addAnswer(state, { from: element.from, to: element.to, kind: 'act', act: 'agreed', outcome: 'no' });
    else if (!trailingCount(state, element, at) && !addPointer(state, element, at) && SAYS.has(element.kind))
      state.clause.said.push(element);
  });
  close(state);
  return state.clauses;
}

function markSoft(state: State, link: 'comma' | 'and'): void {
  state.soft = state.clause.said.length;
  state.link = link;
}
