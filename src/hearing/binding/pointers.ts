import type { Place } from '../../trade/terms.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { partNamed, unknownPart } from '../tagging/part-index.js';
import { wordAt } from '../text/word-at.js';
import { addMention } from './adding-mentions.js';
import { hasPost, wordOf, type State } from './clause-state.js';
import { fits, pointing, type Element, type Mention } from './mentions.js';
import { OPPOSITE } from './things.js';

const PREDICATES = new Set<Element['kind']>(['condition', 'act', 'measure', 'remedy', 'process', 'money']);

/** The element after an optional copula or "one". */
function predicate(state: State, at: number): Element | undefined {
  let next = at + 1;
  while (
    state.elements[next]?.kind === 'copula' ||
    (!PREDICATES.has(state.elements[next]?.kind ?? 'word') &&
      /^(one|ones|all|both|i|'ll|we|will|can|could|to)$/.test(wordOf(state, state.elements[next])))
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

/** The thing last spoken of. */
const lastMention = ({ clause, clauses }: State): Mention | undefined =>
  clause.mentions.at(-1) ?? clauses.findLast(({ mentions }) => mentions.length > 0)?.mentions.at(-1);

const addSide = (mention: Mention, place: Place): void => {
  if (!mention.places.includes(place)) mention.places.push(place);
};

/** "the left and right": the second place of the same thing. */
const isSecondSide = ({ clause, elements }: State, last: Mention, at: number): boolean =>
  elements[at - 1]?.kind === 'and' && elements[at - 2]?.kind === 'place' && clause.mentions.includes(last);

/** "shoes posted off, front pair": which of them, said after; how many that is, or null. */
function pairSaidAfter(state: State, element: Chunk, last: Mention, at: number): number | null {
  const [pair, ends] = [state.elements[at + 1], state.elements[at + 2]];
  const ofLast = state.link === 'comma' && last.places.length === 0 && state.clause.mentions.includes(last);
  if (!ofLast || pair?.kind !== 'count' || pair.from !== element.to) return null;
  return ends === undefined || ends.kind === 'break' ? pair.count : null;
}

/** "replace the left one": another of them is decided on. */
function decidesAnew(state: State, element: Chunk, at: number): boolean {
  const { elements, tokens } = state;
  const led = elements[elements[at - 1]?.kind === 'article' ? at - 2 : at - 1];
  const one = /^(one|ones)$/;
  return (
    (led?.kind === 'remedy' || led?.kind === 'process') &&
    one.test(wordAt(tokens, element.to - 1)) !== one.test(wordOf(state, elements[at + 1]))
  );
}

/** "a dent on the left side", "the shoe, front": where on the thing spoken of, or which of them; not another one. */
function saysWhere(state: State, element: Chunk, at: number): boolean {
  const { clause, elements, link } = state;
  if (clause.mentions.length === 0 || decidesAnew(state, element, at)) return false;
  const post = hasPost(clause);
  const leadsIn = elements.slice(Math.max(0, at - 2), at).some(({ kind }) => kind === 'of');
  if (post && leadsIn && sideEnds(state, element, at)) return true;
  if (link !== 'none') return false;
  const tells = PREDICATES.has(predicate(state, at)?.kind ?? 'word');
  return !post || !tells || elements[at - 1]?.kind === 'of';
}

/** "the left one", "on the left side", "front and rear": a place of the thing spoken of, or another such thing there. */
function addPlace(state: State, element: ChunkOf<'place'>, at: number): void {
  const { place } = element;
  const last = lastMention(state);
  const pointed = pointing(element, 'place', [place]);
  if (last?.part != null && !fits(place, last.part.sides)) {
    const twin = twinOf(last.part, place);
    if (twin !== null) addMention(state, { ...pointed, part: twin, back: null }, at);
    return;
  }
  const pair = last === undefined ? null : pairSaidAfter(state, element, last, at);
  if (last !== undefined && pair !== null) last.count ??= pair;
  if (
    last !== undefined &&
    (pair !== null || isSecondSide(state, last, at) || saysWhere(state, element, at))
  ) {
    addSide(last, place);
    return;
  }
  const mate = contrasted(state, place);
  addMention(state, mate === null ? pointed : { ...pointed, part: mate, back: null }, at);
}

/** "the other side", "the other two", "the rest are fine"; false where nothing is told of the rest. */
function addOther(state: State, element: Chunk, at: number): boolean {
  const others = state.elements[at + 1];
  if (/^(rest|others|remainder|them)$/.test(wordAt(state.tokens, element.to - 1))) {
    const told = predicate(state, at)?.kind === 'condition' && lastMention(state) !== undefined;
    if (told) addMention(state, pointing(element, 'some', []), at);
    return told;
  }
  const counted = others?.kind === 'count' && !others.both ? others.count : null;
  addMention(state, pointing(element, counted === null ? 'other' : 'some', [], counted), at);
  return true;
}

/** "two are bent", "one came back"; false where the number points at nothing. */
function addSome(state: State, element: ChunkOf<'count' | 'article'>, at: number): boolean {
  const before = state.elements[at - 1];
  const many = element.kind === 'count' && !element.both ? element.count : null;
  if (many !== null && before?.kind === 'pronoun' && before.refers === 'other') return true;
  const one = element.kind === 'article' && wordOf(state, element) === 'one' && before?.kind !== 'place';
  if (many === null && !one) return false;
  if (one && before?.kind === 'mention' && before.to === element.from && before.places.length > 0)
    return true;
  const last = lastMention(state);
  const told = predicate(state, at);
  const tells = told?.kind === 'condition' || (told?.kind === 'act' && (!one || told.act === 'back'));
  if (last === undefined || !tells) return one;
  if (many !== null && wordOf(state, element) === 'all') last.count ??= many;
  else addMention(state, pointing(element, 'some', [], many ?? 1), at);
  return true;
}

/** Takes a word that points at a thing spoken of ("the other side", "the left one", "two"); false where it does not point. */
export function addPointer(state: State, element: Chunk, at: number): boolean {
  if (element.kind === 'pronoun') return element.refers === 'other' && addOther(state, element, at);
  if (element.kind === 'count' || element.kind === 'article') return addSome(state, element, at);
  if (element.kind !== 'place') return false;
  addPlace(state, element, at);
  return true;
}
