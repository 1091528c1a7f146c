import type { ChunkOf } from '../tagging/chunk.js';
import { close, wordOf, type Clause, type State } from './clause-state.js';
import type { Element } from './mentions.js';

/** Whether the owner has answered before that place in a clause. */
export const agreedBefore = (clause: Clause, until: number): boolean =>
  clause.said.slice(0, until).some((chunk) => chunk.kind === 'act' && chunk.act === 'agreed');

/** "and the bars no", "but not the bars": another answer of the owner begins a clause of its own. */
export function addAnswer(state: State, chunk: ChunkOf<'act'>): void {
  const before = state.clause.said.find(
    (one): one is ChunkOf<'act'> => one.kind === 'act' && one.act === 'agreed',
  );
  if (before !== undefined && before.outcome !== chunk.outcome) close(state);
  state.clause.said.push(chunk);
}

/** "… but not the bars", after a yes. */
export function refusesRest(state: State, element: Element, at: number): boolean {
  const except =
    element.kind === 'act' &&
    element.act === 'back' &&
    element.outcome === 'part' &&
    /^(except|bar|apart|but)$/.test(wordOf(state, element));
  const bar =
    element.kind === 'word' &&
    /^(except|bar|excluding|excepting|barring)$/.test(wordOf(state, element)) &&
    [state.elements[at + 1], state.elements[at + 2]].some((one) => one?.kind === 'mention');
  if (except || bar)
    return [...state.clauses, state.clause].some((clause) => agreedBefore(clause, clause.said.length));
  const not = element.kind === 'denial' && wordOf(state, element) === 'not';
  const led = /^(but|just|only)$/.test(wordOf(state, state.elements[at - 1]));
  const thing = [state.elements[at + 1], state.elements[at + 2]].some((one) => one?.kind === 'mention');
  const apart = state.elements[at - 1]?.kind === 'break' && thing;
  if (!not || !(led || apart)) return false;
  return [...state.clauses, state.clause].some((clause) => agreedBefore(clause, clause.said.length));
}
