import type { Token } from '../text/tokens.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import { addMention } from './adding-mentions.js';
import { settled, undecided, waiting } from './attaching.js';
import { close, hasPost, newClause, wordOf, type Clause, type State } from './clause-state.js';
import { allWant, bothOf, countedTogether, decidesAll, trailingCount } from './counts-of-all.js';
import type { Element } from './mentions.js';
import { addAnswer, refusesRest } from './owner-answers.js';
import { addPointer } from './pointers.js';

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
/** Adjectives and verbs that tell something no vocabulary of ours has. */
const TELLING =
  /^(short|long|works|working|bled|timed|firm|free|original|rechromable|rechromeable|set|done|dry|empty|full|plain|black|red|green|silver|painted|heavy|light|thick|high|low|odd|different|standard|nice|clean|modified|welded|unknown|complete|ready|here|there|present)$/;

/** "all fine except the left one": what follows is told of by itself. */
const EXCEPT = /^(except|excepting|excluding|bar|barring|apart|save)$/;

function addWord(state: State, element: ChunkOf<'word'>): void {
  if (EXCEPT.test(wordOf(state, element)) && state.clause.mentions.length > 0 && hasPost(state.clause))
    close(state);
  if (
    /^(but|then|though|while|whereas|because|so|or|although|however|unless|until|if|when|once)$/.test(
      element.word,
    )
  )
    markSoft(state, 'and');
  else if (
    state.clause.mentions.length > 0 &&
    state.link === 'none' &&
    TELLING.test(element.word) &&
    state.tokens[element.from - 1]?.text !== '('
  )
    state.clause.opaque = true;
  if (state.clause.mentions.length > 0 && !SMALL.test(element.word)) state.clause.strange = true;
}

/** Words that tell nothing of a thing by themselves. */
const SMALL =
  /^(side|end|one|ones|so|well|just|now|then|still|again|but|only|there|here|too|also|i|i'm|we|you|he|she|us|me|as|if|or|that|which|who|what|when|where|while|because|though|although|for|up|out|down|off|about|as|same|old|new|all|right|bit|lot|today|yesterday|tomorrow|morning|afternoon|while|had|look|looked|finish|weld|size|\W)$/;

/** Splits a message into clauses: each with the things spoken of and all that is said of them. */
export function clausesOf(elements: readonly Element[], tokens: readonly Token[]): Clause[] {
  const state: State = { tokens, elements, clauses: [], clause: newClause(), soft: null, link: 'none' };
  elements.forEach((element, at) => {
    if (element.kind === 'mention') addMention(state, element, at);
    else if (element.kind === 'break') {
      if (element.strength === 'full' && tokens[element.from]?.text !== ':') close(state, false);
      else if (tokens[element.from]?.text === ':' && heads(state.clause)) {
        state.clause.header = true;
        close(state);
      } else markSoft(state, 'comma');
    } else if (element.kind === 'and' && element.to - element.from === 2 && hasPost(state.clause)) {
      // "blast them along with the stand": what was said of them is said of it.
      close(state);
      state.clause.same = true;
      state.clause.along = true;
    } else if (element.kind === 'and') markSoft(state, 'and');
    else if (allWant(state, element, at)) state.clause.all = true;
    else if (element.kind === 'word' && !refusesRest(state, element, at)) addWord(state, element);
    else if (
      element.kind === 'copula' &&
      (elements[at + 1] === undefined || elements[at + 1]?.kind === 'break')
    )
      state.clause.strange = true;
    else if (decidesAll(state, element, at)) {
      const decision = state.clause.said.pop();
      close(state);
      state.clause.all = true;
      if (decision !== undefined) state.clause.said.push(decision);
    } else if (bothOf(state, element, at)) {
      close(state);
      state.clause.all = true;
    } else if (countedTogether(state, element)) return;
    else if (element.kind === 'pronoun' && element.refers === 'all') {
      const listed = state.clause.mentions.length === 1 && !hasPost(state.clause);
      if (listed || state.clauses.length === 0) state.clause.said.push(element);
      else {
        const decision = leadsTo(state, element);
        close(state);
        state.clause.all = true;
        state.clause.said.push(...decision, element);
      }
    } else if (element.kind === 'pronoun' && element.refers === 'same') {
      close(state);
      state.clause.same = true;
    } else if (element.kind === 'also') sameAgain(state, element);
    else if (element.kind === 'act' && element.act === 'agreed') addAnswer(state, element);
    else if (refusesRest(state, element, at))
      addAnswer(state, { from: element.from, to: element.to, kind: 'act', act: 'agreed', outcome: 'no' });
    else if (
      !trailingCount(state, element, at) &&
      !addPointer(state, element, at) &&
      SAYS.has(element.kind)
    ) {
      if ((state.link === 'comma' || ofIt(state, element)) && decides(state, element)) close(state);
      else if (state.link !== 'none' && ofMany(state, element) && oneByOne(state)) close(state);
      state.clause.said.push(element);
      state.clause.many ||= ofMany(state, element);
    }
  });
  close(state);
  return state.clauses;
}

/** "send it", "replace them": said of a thing named before. */
const ofIt = ({ tokens }: State, element: Element): boolean =>
  tokens.slice(element.from, element.to + 1).some(({ word }) => /^(it|them)$/.test(word));

/** Single things have been told of last, one after the other. */
const oneByOne = ({ clauses, clause }: State): boolean => waiting([...clauses, clause]).length > 1;

/** "new ones", "replace them": decided of more than one. */
const ofMany = ({ tokens }: State, element: Element): boolean =>
  (element.kind === 'remedy' || element.kind === 'process') &&
  tokens.slice(element.from, element.to + 1).some(({ word }) => /^(ones|them)$/.test(word));

/** "pin fine, replace the bush", "top's good, renew": what is to be done begins anew after what is all right. */
const decides = (state: State, element: Element): boolean =>
  (element.kind === 'remedy' ? element.remedy !== 'keep' : element.kind === 'process') &&
  settled(state.clause) &&
  state.clause.mentions.length > 0 &&
  state.clauses.some(undecided);

/** "replace the both of them": the decision right before the words for all is of all. */
function leadsTo(state: State, element: Chunk): Chunk[] {
  const last = state.clause.said.at(-1);
  const decision = last?.kind === 'remedy' || last?.kind === 'process';
  const next = last === undefined ? [] : state.tokens.slice(last.to, element.from);
  if (!decision || state.clause.said.length <= state.clause.fore) return [];
  return next.every(({ word }) => /^(the|for|of|up)$/.test(word)) ? state.clause.said.splice(-1) : [];
}

/** "mudguard stays: same" is of the things before the colon. */
function sameAgain(state: State, element: Chunk): void {
  // "dented and all": more of the same thing, or somebody else who looked.
  if (wordOf(state, element) === 'and' && hasPost(state.clause)) return;
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
