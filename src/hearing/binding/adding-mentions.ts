import type { Chunk } from '../tagging/chunk.js';
import { wordAt } from '../text/word-at.js';
import { close, hasPost, locates, wordOf, type State } from './clause-state.js';
import type { Element, Mention } from './mentions.js';
import { agreedBefore } from './owner-answers.js';

/** What can stand before the thing it is said of, in one breath: "send the", "fitted new", "two bent". */
const LEADS = new Set<Chunk['kind']>(['act', 'remedy', 'process', 'owner', 'supplier', 'denial']);

/** What of the running clause's words leads on to the mention that comes now. */
function takeLead(state: State, mention: Mention, told: boolean): Chunk[] {
  const { clause } = state;
  if (state.soft !== null) return clause.said.splice(Math.max(state.soft, clause.fore));
  let start = clause.said.length;
  let edge = mention.from;
  while (start > clause.fore) {
    const chunk = clause.said[start - 1];
    if (chunk === undefined) break;
    const near =
      edge - chunk.to <= 2 && !(chunk.kind === 'act' && PARTICLE.test(wordAt(state.tokens, chunk.from)));
    const adjective = chunk.kind === 'condition' && edge === chunk.to && start - 1 > clause.fore;
    // "replace it, offside one is good": what has its object already leads nowhere.
    const object = /^(it|them|those|both|that)$/;
    if (object.test(wordAt(state.tokens, chunk.to))) break;
    if (chunk.to > chunk.from + 1 && object.test(wordAt(state.tokens, chunk.to - 1))) break;
    // "chrome them at Skelbeck, sliders good": whom the work goes to stands after it.
    const taker = chunk.kind === 'supplier' && /^(at|to|with|by)$/.test(wordAt(state.tokens, chunk.from - 1));
    if (taker && (start - 1 === clause.fore || /^(process|remedy)$/.test(clause.said[start - 2]?.kind ?? '')))
      break;
    // "that's the clutch stripped, plain plates are bent": told of the thing before it.
    const predicate = chunk.kind === 'act' && told && clause.mentions.at(-1)?.to === chunk.from;
    if (predicate) break;
    if (!near || !(LEADS.has(chunk.kind) || adjective)) break;
    edge = chunk.from;
    start -= 1;
  }
  return clause.said.splice(start);
}

/** Acts that are predicates of the thing before them: "gearbox out", "is off". */
const PARTICLE = /^(off|out|in|on|back|apart|'s|is|are|'re|was|were|now|all)$/;

/** Whether the words after a listed mention, up to the next mention or break, tell something of it alone. */
function ownPredicate(
  elements: readonly Element[],
  at: number,
  decided: boolean,
  fore: readonly Chunk[] = [],
): boolean {
  // "sent the speedo and rev counter away": the particle goes with the verb before both.
  const sent = fore.some((chunk) => chunk.kind === 'act' && chunk.act === 'sent');
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
      (element.kind === 'act' &&
        element.act !== 'promised' &&
        element.act !== 'back' &&
        !(element.act === 'sent' && sent)) ||
      (element.kind === 'remedy' && !(element.remedy === 'send-out' && sent)) ||
      (decided && element.kind === 'process') ||
      element.kind === 'measure'
    )
      return true;
  }
  return false;
}

/** Puts a thing into the running clause, or begins a new one with it where something was told of the last. */
export function addMention(state: State, mention: Mention, at: number): void {
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
    (clause.fore > 0 && state.link === 'none' && toldNext(elements, at)) ||
    (denied(state, mention) && state.link !== 'none') ||
    (headed(state, mention) && ownPredicate(elements, at, false)) ||
    (lookedAt(state) && state.link !== 'none' && ownPredicate(elements, at, false)) ||
    (clause.fore > 0 && clause.mentions.at(-1)?.back === 'place' && state.link === 'comma') ||
    hasPost(clause) ||
    worksElsewhere(state, at) ||
    (clause.fore > 0 &&
      state.link !== 'none' &&
      ownPredicate(
        elements,
        at,
        clause.said.slice(0, clause.fore).some((chunk) => chunk.kind === 'remedy'),
        clause.said.slice(0, clause.fore),
      ))
  ) {
    const lead = takeLead(state, mention, toldNext(elements, at));
    close(state);
    state.clause.said = lead;
    state.clause.fore = lead.length;
  }
  state.clause.mentions.push(mention);
  state.soft = null;
  state.link = 'none';
}

/** "took the gearbox apart the bush is worn": said without a pause, but told of the second alone. */
const toldNext = (elements: readonly Element[], at: number): boolean => {
  const copula = elements[at + 1]?.kind === 'copula' ? 1 : 0;
  return elements[at + 1 + copula]?.kind === 'condition';
};

/** "skim the drum, shoes to Garsdale for relining": another thing goes elsewhere for work of its own. */
const worksElsewhere = ({ clause, link, elements, tokens }: State, at: number): boolean => {
  const fore = clause.said.slice(0, clause.fore);
  const [to, whom] = [elements[at + 1], elements[at + 2]];
  return (
    link === 'comma' &&
    fore.some((chunk) => chunk.kind === 'process') &&
    !fore.some((chunk) => chunk.kind === 'remedy') &&
    to?.kind === 'of' &&
    tokens[to.from]?.word === 'to' &&
    whom?.kind === 'supplier'
  );
};

/** "rings, pins, no circlips": what is not there is told of alone. */
const denied = ({ clause, tokens }: State, mention: Mention): boolean =>
  clause.said.at(-1)?.kind === 'denial' &&
  clause.said.at(-1)?.to === mention.from &&
  tokens[mention.from - 1]?.word === 'no';

/** "clutch, plates warped": the whole is only named for the part of it that follows. */
const headed = ({ clause, link }: State, mention: Mention): boolean => {
  const [whole, ...rest] = clause.mentions;
  if (whole?.part == null || mention.part === null || rest.length > 0 || hasPost(clause) || link !== 'comma')
    return false;
  return (
    mention.part.part.startsWith(`${whole.part.part} `) ||
    (mention.part.within.includes(whole.part.part) && !whole.part.plural)
  );
};

/** "had a look at the gearbox and the bushes are fine": of the first nothing is told. */
const lookedAt = ({ clause, tokens }: State): boolean => {
  const [only, ...rest] = clause.mentions;
  if (only === undefined || rest.length > 0 || hasPost(clause)) return false;
  return tokens
    .slice(Math.max(0, only.from - 3), only.from)
    .some(({ word }, at, near) => /^(look|looked|looking)$/.test(word) && near[at + 1]?.word === 'at');
};
