import { monthAt, weekdayAt } from '../dates/calendar-words.js';
import type { Token } from '../text/tokens.js';
import { isEveryday } from '../text/ordinary-words.js';
import { wordAt } from '../text/word-at.js';
import type { Chunk } from './chunk.js';
import { meaningOfName, TELLS_OF, type NameHeard } from './name-rules.js';
import { describes, isCapital, SPEAKS, verbAt } from './name-words.js';
import { isTradeWord, partOf } from './part-index.js';
import { partStarts } from './part-starts.js';

/** A run of capitalised words, "&" and "and" between two of them included. */
function nameRun(tokens: readonly Token[], from: number): number {
  let to = from;
  while (isCapital(tokens[to]) && monthAt(tokens, to) === undefined && weekdayAt(tokens, to) === undefined) {
    to += 1;
    if (/^(&|and)$/.test(wordAt(tokens, to)) && isCapital(tokens[to + 1])) to += 1;
  }
  return to;
}

const starts = (tokens: readonly Token[], at: number): boolean =>
  at === 0 || /^[.!?;:\n]$/.test(tokens[at - 1]?.text ?? '');

/** Verbs that open a sentence right before a name: "Chased Crale". */
const OPENS =
  /^(chased|rang|phoned|called|texted|emailed|sent|gave|told|asked|paid|owe|owed|handed|collected|ordered|bought|got|had|ring|chase|phone|call|text|email|send|give|tell|ask|pay)$/;

/** "Spokes Tatlock sent": things, then a name. */
const namesThings = (token: Token | undefined): boolean =>
  token !== undefined && token.word.endsWith('s') && partOf(token.word, token) !== undefined;

/** A word that may tell of the thing after it: "Tarnished reflector". */
const mayDescribe = (said: string): boolean => isTradeWord(said) || said.endsWith('s') || describes(said);

/** Whether a name begins at the token, which isn't the verb before one, nor stands within one. */
function nameBegins(tokens: readonly Token[], at: number): boolean {
  const token = tokens[at];
  if (token === undefined || !isCapital(token)) return false;
  if (starts(tokens, at) && namesThings(token)) return false;
  const led = starts(tokens, at - 1) && (OPENS.test(wordAt(tokens, at - 1)) || namesThings(tokens[at - 1]));
  if (isCapital(tokens[at - 1]) && !led) return false;
  return !(starts(tokens, at) && OPENS.test(token.word) && isCapital(tokens[at + 1]));
}

const NOBODY =
  /^(nobody|everyone|everybody|someone|somebody|that|this|it|which|who|he|she|they|we|you|people|book|manual|label|note|receipt|invoice|box|calendar|clock|gauge)$/;

/** What 's is short for "has" or "is" before: "Brian's promised", and no "Brian's forks". */
const HAS_OR_IS =
  /^(got|had|been|gone|sent|done|says|promised|quoted|doing|making|going|put|let|moved|slipped|rung|rang|finished|told|coming|delayed|pushed|booked|asked|saying|taking|started|given|posted|delivered|just|now|not|still|hoping|waiting|running|shifted|changed|lost|forgotten|returned|mentioned|missed|skipped)$/;

/** Whether something is said as only a name says it: "Price reckons Friday", and no "Book says 4 thou". */
function tellsAsName({ tokens, at, does, then, possessive }: Omit<NameHeard, 'doubtful'>): boolean {
  const tells = TELLS_OF.test(possessive ? then : does) && !/^(have|are|want)$/.test(does);
  return tells && !partStarts(tokens, at) && !NOBODY.test(wordAt(tokens, at));
}

function nameHeard(
  tokens: readonly Token[],
  at: number,
  to: number,
  ordinary: (word: string) => boolean,
): NameHeard {
  const [next, then, later] = [wordAt(tokens, to), wordAt(tokens, to + 1), wordAt(tokens, to + 2)];
  const [near, beforeNear] = [wordAt(tokens, at - 1), wordAt(tokens, at - 2)];
  const possessive = next === "'s";
  const does = wordAt(tokens, verbAt(tokens, to));
  const name = {
    tokens,
    at,
    to,
    first: starts(tokens, at),
    lead: /^(young|old|our|big|little|good)$/.test(near) ? beforeNear : near,
    near,
    beforeNear,
    next,
    then,
    later,
    possessive,
    does,
    speaks: SPEAKS.test(does) && (!possessive || HAS_OR_IS.test(then)),
    ordinary,
  };
  const said = wordAt(tokens, at);
  const common = partStarts(tokens, to) ? isEveryday(said) || mayDescribe(said) : ordinary(said);
  const plain = name.first && to === at + 1 && (common || partStarts(tokens, at));
  return { ...name, doubtful: plain && !tellsAsName(name) };
}

/** Names by their capital and where they stand: "to Harker's", "from Mill Lane Plating", "Brian says". */
export function capitalised(tokens: readonly Token[], ordinary: (word: string) => boolean): Chunk[] {
  const found: Chunk[] = [];
  tokens.forEach((_, at) => {
    if (!nameBegins(tokens, at)) return;
    const to = nameRun(tokens, at);
    if (to === at) return;
    const meaning = meaningOfName(nameHeard(tokens, at, to, ordinary));
    if (meaning !== null) found.push(meaning);
  });
  return found;
}
