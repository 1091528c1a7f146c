import type { Place } from '../../trade/terms.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { partNamed, unknownPart } from '../tagging/part-index.js';
import { wordAt } from '../text/word-at.js';
import { addMention } from './adding-mentions.js';
import { hasPost, wordOf, type State } from './clause-state.js';
import { fits, pointing, type Element } from './mentions.js';
import { OPPOSITE } from './things.js';

const PREDICATES = new Set<Element['kind']>(['condition', 'act', 'measure', 'remedy', 'process', 'money']);

/** The element after an optional copula or "one". */
function predicate(state: State, at: number): Element | undefined {
  let next = at + 1;
  while (
    state.elements[next]?.kind === 'copula' ||
    /^(one|ones|all|both|i|i'll|'ll|we|will|can|could|to)$/.test(wordOf(state, state.elements[next]))
  )
    next += 1;
  return state.elements[next];
}

/** "rear wheel needs spokes, front one's fine": the part spoken of at the other place, where something else came between. */
function contrasted(state: State, place: Place): ChunkOf<'part'> | null {
  const spoken = [...state.clauses, state.clause].flatMap(({ mentions }) => mentions);
  const found = spoken.slice(-3).findLast(({ places }) => places.some((one) => OPPOSITE[one] === place));
  return found === undefined || found === spoken.at(-1) ? null : found.part;
}

/** "outer cover dented, inner one cracked": the part whose name has the other place in it. */
function twinOf(part: ChunkOf<'part'>, place: Place): ChunkOf<'part'> | null {
  const name = part.part.replace(/\b(inner|outer|upper|lower|inlet|exhaust|front|rear|top|bottom)\b/, place);
  const twin = name === part.part ? undefined : partNamed(name.replace(/[ -]/g, ''));
  return twin === undefined ? null : { ...part, ...unknownPart(twin.name, part.plural, part.sure) };
}

/** "on the left side", with nothing told of that side after it. */
function sideEnds(state: State, element: Chunk, at: number): boolean {
  const named = /^(side|end)$/.test(wordAt(state.tokens, element.to - 1));
  if (!named && !/^(side|end|edge|corner)$/.test(wordOf(state, state.elements[at + 1]))) return false;
  const next = state.elements[at + (named ? 1 : 2)];
  return !PREDICATES.has(next?.kind ?? 'word') && next?.kind !== 'copula';
}

/** Takes a word that points at a thing spoken of ("the other side", "the left one", "two"); false where it does not point. */
export function addPointer(state: State, element: Chunk, at: number): boolean {
  const last =
    state.clause.mentions.at(-1) ??
    state.clauses.findLast((clause) => clause.mentions.length > 0)?.mentions.at(-1);
  if (
    element.kind === 'pronoun' &&
    /^(rest|others|remainder|them)$/.test(wordAt(state.tokens, element.to - 1)) &&
    element.refers === 'other'
  ) {
    const told = predicate(state, at)?.kind === 'condition' && last !== undefined;
    if (told) addMention(state, pointing(element, 'some', []), at);
    return told;
  }
  const others = state.elements[at + 1];
  if (element.kind === 'pronoun' && element.refers === 'other' && others?.kind === 'count' && !others.both) {
    addMention(state, pointing(element, 'some', [], others.count), at);
    return true;
  }
  if (element.kind === 'count' && state.elements[at - 1]?.kind === 'pronoun' && !element.both) {
    const pronoun = state.elements[at - 1];
    if (pronoun?.kind === 'pronoun' && pronoun.refers === 'other') return true;
  }
  if (element.kind === 'pronoun' && element.refers === 'other') {
    addMention(state, pointing(element, 'other', []), at);
    return true;
  }
  if (element.kind === 'place') {
    if (last?.part != null && !fits(element.place, last.part.sides)) {
      const twin = twinOf(last.part, element.place);
      if (twin !== null)
        addMention(state, { ...pointing(element, 'place', [element.place]), part: twin, back: null }, at);
      return true;
    }
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
    // "shoes posted off, front pair": which of them, said after.
    const pair = state.elements[at + 1];
    const ends = state.elements[at + 2];
    if (
      state.link === 'comma' &&
      pair?.kind === 'count' &&
      pair.from === element.to &&
      last !== undefined &&
      last.places.length === 0 &&
      state.clause.mentions.includes(last) &&
      (ends === undefined || ends.kind === 'break')
    ) {
      last.places.push(element.place);
      last.count ??= pair.count;
      return true;
    }
    // "a dent on the left side": where on the thing, not another one.
    const where =
      state.clause.mentions.length > 0 &&
      hasPost(state.clause) &&
      state.elements.slice(Math.max(0, at - 2), at).some((one) => one.kind === 'of') &&
      sideEnds(state, element, at);
    const led = state.elements[at - 1]?.kind === 'article' ? state.elements[at - 2] : state.elements[at - 1];
    const anew =
      (led?.kind === 'remedy' || led?.kind === 'process') &&
      /^(one|ones)$/.test(wordAt(state.tokens, element.to - 1)) !==
        /^(one|ones)$/.test(wordOf(state, state.elements[at + 1]));
    if (last !== undefined && !anew && (where || (fresh && (!hasPost(state.clause) || !tells)))) {
      if (!last.places.includes(element.place)) last.places.push(element.place);
    } else {
      const mate = contrasted(state, element.place);
      const pointed = pointing(element, 'place', [element.place]);
      addMention(state, mate === null ? pointed : { ...pointed, part: mate, back: null }, at);
    }
    return true;
  }
  const one =
    element.kind === 'article' &&
    wordOf(state, element) === 'one' &&
    state.elements[at - 1]?.kind !== 'place';
  const before = state.elements[at - 1];
  if (one && before?.kind === 'mention' && before.to === element.from && before.places.length > 0)
    return true;
  if ((element.kind === 'count' && !element.both) || one) {
    const follows = predicate(state, at);
    if (
      last === undefined ||
      follows === undefined ||
      (follows.kind !== 'condition' && (follows.kind !== 'act' || (one && follows.act !== 'back')))
    )
      return one;
    if (wordOf(state, element) === 'all') last.count ??= (element as ChunkOf<'count'>).count;
    else addMention(state, pointing(element, 'some', [], element.kind === 'count' ? element.count : 1), at);
    return true;
  }
  return false;
}
