import type { Token } from '../text/tokens.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { close, hasPost, locates, newClause, wordOf, type Clause, type State } from './clause-state.js';
import { bothOf, decidesAll, trailingCount } from './counts-of-all.js';
import { fits, pointing, type Element, type Mention } from './mentions.js';

export type { Clause } from './clause-state.js';

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
    // "replace it, offside one is good": what has its object already leads nowhere.
    if (/^(it|them|those|both|that)$/.test(state.tokens[chunk.to]?.word ?? '')) break;
    if (!near || !(LEADS.has(chunk.kind) || adjective)) break;
    edge = chunk.from;
    start -= 1;
  }
  return clause.said.splice(start);
}

/** Acts that are predicates of the thing before them: "gearbox out", "is off". */
const PARTICLE = /^(off|out|in|on|back|apart|'s|is|are|'re|was|were|now|all)$/;

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
    (clause.opaque && state.link !== 'none') ||
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
    const paired =
      state.elements[at - 1]?.kind === 'and' &&
      state.elements[at - 2]?.kind === 'place' &&
      last !== undefined &&
      state.clause.mentions.includes(last);
    if (paired) {
      if (!last.places.includes(element.place)) last.places.push(element.place);
      return true;
    }
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

/** Adjectives and verbs that tell something no vocabulary of ours has. */
const TELLING =
  /^(short|long|works|working|bled|timed|firm|free|original|rechromable|rechromeable|set|done|dry|empty|full|plain|black|red|green|silver|painted|heavy|light|thick|high|low|odd|different|standard|nice|clean|modified|welded|unknown|complete|ready|here|there|present)$/;

function addWord(state: State, element: ChunkOf<'word'>): void {
  if (
    /^(but|then|though|while|whereas|because|so|or|although|however|unless|until|if|when|once)$/.test(
      element.word,
    )
  )
    markSoft(state, 'and');
  else if (state.clause.mentions.length > 0 && state.link === 'none' && TELLING.test(element.word))
    state.clause.opaque = true;
}

/** Splits a message into clauses: each with the things spoken of and all that is said of them. */
export function clausesOf(elements: readonly Element[], tokens: readonly Token[]): Clause[] {
  const state: State = { tokens, elements, clauses: [], clause: newClause(), soft: null, link: 'none' };
  elements.forEach((element, at) => {
    if (element.kind === 'mention') addMention(state, element, at);
    else if (element.kind === 'break') {
      if (element.strength === 'full' && tokens[element.from]?.text !== ':') close(state);
      else if (tokens[element.from]?.text === ':' && heads(state.clause)) {
        state.clause.header = true;
        close(state);
      } else markSoft(state, 'comma');
    } else if (element.kind === 'and') markSoft(state, 'and');
    else if (element.kind === 'word') addWord(state, element);
    else if (decidesAll(state, element, at)) {
      const decision = state.clause.said.pop();
      close(state);
      state.clause.all = true;
      if (decision !== undefined) state.clause.said.push(decision);
    } else if (bothOf(state, element, at)) {
      close(state);
      state.clause.all = true;
    } else if (element.kind === 'pronoun' && element.refers === 'all') {
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
    } else if (element.kind === 'also') sameAgain(state);
    else if (element.kind === 'act' && element.act === 'agreed') addAnswer(state, element);
    else if (refusesRest(state, element, at))
      addAnswer(state, { from: element.from, to: element.to, kind: 'act', act: 'agreed', outcome: 'no' });
    else if (!trailingCount(state, element, at) && !addPointer(state, element, at) && SAYS.has(element.kind))
      state.clause.said.push(element);
  });
  close(state);
  return state.clauses;
}

/** "mudguard stays: same" is of the things before the colon. */
function sameAgain(state: State): void {
  const heading = state.clauses.at(-1);
  const empty = state.clause.mentions.length === 0 && state.clause.said.length === 0;
  if (empty && heading?.header === true) heading.same = true;
  else state.clause.same = true;
}

/** Things named before a colon, nothing said of them yet. */
const heads = (clause: Clause): boolean => clause.mentions.length > 0 && clause.said.length === 0;

function markSoft(state: State, link: 'comma' | 'and'): void {
  state.soft = state.clause.said.length;
  state.link = link;
}
