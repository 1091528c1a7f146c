import type { Token } from '../text/tokens.js';
import type { Chunk } from '../tagging/chunk.js';
import { pointing, type Element, type Mention } from './mentions.js';

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
  'topic',
]);
/** What can stand before the thing it is said of, in one breath: "send the", "fitted new", "two bent". */
const LEADS = new Set<Chunk['kind']>(['act', 'remedy', 'process', 'owner', 'supplier', 'denial']);

const newClause = (): Clause => ({ mentions: [], said: [], all: false, same: false, fore: 0 });

type State = { clauses: Clause[]; clause: Clause; soft: number | null; link: 'none' | 'comma' | 'and' };

const hasPost = (clause: Clause): boolean => clause.said.length > clause.fore;

function close(state: State): void {
  if (state.clause.mentions.length > 0 || state.clause.said.length > 0 || state.clause.same)
    state.clauses.push(state.clause);
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
    const near = edge - chunk.to <= 2;
    const adjective = chunk.kind === 'condition' && edge === chunk.to && start - 1 > clause.fore;
    if (!near || !(LEADS.has(chunk.kind) || adjective)) break;
    edge = chunk.from;
    start -= 1;
  }
  return clause.said.splice(start);
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
    if (element.kind === 'condition' || element.kind === 'act' || element.kind === 'remedy') return true;
  }
  return false;
}

function addMention(state: State, mention: Mention, elements: readonly Element[], at: number): void {
  const { clause } = state;
  if (clause.mentions.length === 0) {
    if (state.soft !== null && state.soft > 0 && state.clauses.length > 0 && !clause.same) {
      const lead = clause.said.splice(state.soft);
      close(state);
      state.clause.said = lead;
    }
    state.clause.fore = state.clause.said.length;
  } else if (
    hasPost(clause) ||
    (clause.fore > 0 && state.link !== 'none' && ownPredicate(elements, at) && !ownVerb(clause))
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

const ownVerb = (clause: Clause): boolean =>
  clause.said.slice(0, clause.fore).every((chunk) => chunk.kind === 'denial');

function addPointer(state: State, element: Chunk, elements: readonly Element[], at: number): boolean {
  if (element.kind === 'pronoun' && element.refers === 'other') {
    addMention(state, pointing(element, 'other', []), elements, at);
    return true;
  }
  if (element.kind === 'place') {
    const last = state.clause.mentions.at(-1);
    const fresh = last !== undefined && !hasPost(state.clause) && state.link === 'none';
    if (fresh && last.places.length === 0) last.places.push(element.place);
    else addMention(state, pointing(element, 'place', [element.place]), elements, at);
    return true;
  }
  return false;
}

/** Splits a message into clauses: each with the things spoken of and all that is said of them. */
export function clausesOf(elements: readonly Element[], tokens: readonly Token[]): Clause[] {
  const state: State = { clauses: [], clause: newClause(), soft: null, link: 'none' };
  elements.forEach((element, at) => {
    if (element.kind === 'mention') addMention(state, element, elements, at);
    else if (element.kind === 'break') {
      if (element.strength === 'full' && tokens[element.from]?.text !== ':') close(state);
      else markSoft(state, 'comma');
    } else if (element.kind === 'and') markSoft(state, 'and');
    else if (element.kind === 'word' && /^(but|then|though|while|whereas|because|so)$/.test(element.word))
      markSoft(state, 'and');
    else if (element.kind === 'pronoun' && element.refers === 'all') {
      if (hasPost(state.clause) || state.clause.mentions.length > 0) close(state);
      state.clause.all = true;
    } else if (element.kind === 'pronoun' && element.refers === 'same') {
      close(state);
      state.clause.same = true;
    } else if (element.kind === 'also') state.clause.same = true;
    else if (!addPointer(state, element, elements, at) && SAYS.has(element.kind))
      state.clause.said.push(element);
  });
  close(state);
  return state.clauses;
}

function markSoft(state: State, link: 'comma' | 'and'): void {
  state.soft = state.clause.said.length;
  state.link = link;
}
