import { phrases } from '../../trade/lexicon/phrases.js';
import type { Known } from '../listener.js';
import { otherSingulars } from '../text/morphology.js';
import type { Token } from '../text/tokens.js';
import { monthAt, weekdayAt } from '../dates/calendar-words.js';
import type { Chunk, Meaning } from './chunk.js';
import { asksToDo, isBreak } from './hired.js';
import { partOf } from './part-index.js';
import { asSaid, SPEAKS, word } from './name-words.js';
import { matches, phraseKey } from './phrase-index.js';
import { firms, strangers } from './small-letter-names.js';

const tradeNouns = new Set(phrases.trades.flatMap((entry) => entry.nouns.map(phraseKey)));
const things = phrases.trades.flatMap((entry) => entry.things.map(phraseKey));
const persons = phrases.trades.flatMap((entry) => entry.persons.map(phraseKey));
const combined = new Set(things.flatMap((thing) => persons.map((person) => thing + person)));

function isTrade(key: string, last: Token): boolean {
  if (tradeNouns.has(key) || combined.has(key)) return true;
  const stem = key.slice(0, key.length - last.word.length);
  return otherSingulars(last.word).some((form) => tradeNouns.has(stem + form));
}

/** A trade by its own word: "the plater", "gauge man", with its article as said. */
function trades(tokens: readonly Token[]): Chunk[] {
  return matches(tokens, (key, last) => (isTrade(key, last) ? true : undefined)).map(({ from, to }) => {
    const article = /^(the|our|my)$/.test(word(tokens, from - 1)) ? 1 : 0;
    const end =
      word(tokens, to) === "'s" &&
      !SPEAKS.test(word(tokens, to + 1)) &&
      /^(at|to|from|with)$/.test(word(tokens, from - 1 - article))
        ? to
        : to;
    return {
      kind: 'supplier' as const,
      from: from - article,
      to: end,
      supplier: asSaid(tokens, from - (word(tokens, from - 1) === 'the' ? 1 : 0), end),
      known: false,
      speaks: SPEAKS.test(word(tokens, end)) || SPEAKS.test(word(tokens, end + 1)),
    };
  });
}

type Named = { name: string; also?: string[] | undefined };

function known(
  tokens: readonly Token[],
  names: readonly Named[],
  make: (said: string, named: Named) => Meaning,
): Chunk[] {
  const keys = new Map(
    names.flatMap((named) =>
      [named.name, ...(named.also ?? [])].map((said) => [phraseKey(said), named] as const),
    ),
  );
  return matches(tokens, (key) => keys.get(key)).map(({ from, to, means }) => ({
    from,
    to,
    ...make(asSaid(tokens, from, to), means),
  }));
}

/** Known firms by the beginning of their name as well, where it is no everyday word and no other's: "Thripp" of Thripp Plating. */
function shortened(named: readonly Named[], ordinary: (word: string) => boolean): Named[] {
  return named.map((one) => {
    const words = one.name.split(' ');
    const short = words.slice(0, -1).map((_, at) => words.slice(0, at + 1).join(' '));
    const own = short.filter(
      (name) =>
        !(name.split(' ').length === 1 && ordinary(name.toLowerCase())) &&
        !/ (&|and)$/.test(name) &&
        !named.some((other) => other !== one && other.name.startsWith(name)),
    );
    return { ...one, also: [...(one.also ?? []), ...own, ...own.map((name) => `${name}'s`)] };
  });
}

/** Known people by their last name alone as well, where it is no everyday word. */
const bySurname = (named: readonly Named[], ordinary: (word: string) => boolean): Named[] =>
  named.map((one) => {
    const last = one.name.split(' ').at(-1) ?? one.name;
    return ordinary(last.toLowerCase()) ? one : { ...one, also: [...(one.also ?? []), last] };
  });

const TITLE = /^(mr|mrs|ms|miss|misses|missus|mister|dr|sir|lady|major|colonel|captain)$/;
const OWNER = /^(owner|customer|client|punter|owner's|boss)$/;

/** "Mrs Dale", "the owner", "the customer". */
function titled(tokens: readonly Token[], ordinary: (word: string) => boolean): Chunk[] {
  return tokens.flatMap((token, at): Chunk[] => {
    const rank =
      /^(sir|lady|major|colonel|captain|misses|missus|mister)$/.test(token.word) &&
      !isCapital(tokens[at + 1]) &&
      !(/^(misses|missus|mister)$/.test(token.word) && !ordinary(word(tokens, at + 1)));
    if (TITLE.test(token.word) && !rank && tokens[at + 1] !== undefined) {
      const dot = word(tokens, at + 1) === '.' ? 1 : 0;
      const name = tokens[at + 1 + dot];
      if (name?.kind !== 'word') return [];
      return [{ kind: 'owner', from: at, to: at + 2 + dot, owner: asSaid(tokens, at, at + 2 + dot) }];
    }
    const boss = token.word === 'boss' && !/^(the|our|my|gaffer)$/.test(word(tokens, at - 1));
    if (OWNER.test(token.word) && !boss) {
      const article = /^(the|our|his|her)$/.test(word(tokens, at - 1)) ? 1 : 0;
      return [{ kind: 'owner', from: at - article, to: at + 1, owner: asSaid(tokens, at - article, at + 1) }];
    }
    return [];
  });
}

const NO_NAME =
  /^(i|i'm|i've|i'll|is|are|did|does|do|has|have|had|was|were|can|could|will|would|should|any|what|when|where|who|how|which|why|the|a|an|and|but|so|right|oh|no|yes|not|both|all|for|from|to|on|in|at|with|by|got|sent|ordered|fitted|took|ok|okay|vat|tdc|btdc|bsf|bsw|ba|unf|unc|led|usa|uk|oe|oem|nos|od|id|nds|nde|tig|mig|ptfe|pvc|hss|nb|ps|eta|mot|am|pm|ht|lt|cdi|dc|ac|en|rh|lh|rhs|lhs|ns|os|us|postie|postman|courier|carrier|driver|tha|thou|thee|thy|yon|nah|ey|ay|aye|nowt|owt|summat|reet|appen|mebbe|happen|whitworth|woodruff|bakelite|monobloc|concentric|jubilee|allen|phillips|allen)$/;

const isCapital = (token: Token | undefined): boolean =>
  token?.kind === 'word' && /^\p{Lu}/u.test(token.text) && !NO_NAME.test(token.word) && token.text.length > 1;

/** A run of capitalised words, "&" and "and" between two of them included. */
function nameRun(tokens: readonly Token[], from: number): number {
  let to = from;
  while (isCapital(tokens[to]) && monthAt(tokens, to) === undefined && weekdayAt(tokens, to) === undefined) {
    to += 1;
    if (/^(&|and)$/.test(word(tokens, to)) && isCapital(tokens[to + 1])) to += 1;
  }
  return to;
}

/** Whether a part's name begins at the token: "Thackley's clutch". */
function partStarts(tokens: readonly Token[], at: number): boolean {
  let key = '';
  for (let to = at; to < at + 3; to += 1) {
    const token = tokens[to];
    if (token?.kind !== 'word') return false;
    key += token.word;
    if (partOf(key, token) !== undefined) return true;
  }
  return (
    /^(front|rear|nearside|offside|left|right|top|bottom|new|old)$/.test(word(tokens, at)) &&
    partStarts(tokens, at + 1)
  );
}

/** Verbs that a firm's name with an s of its own comes before: "Pargeter's say", where "Pargeter's said it" and "has said" differ. */
const TELLS_OF =
  /^(say|says|said|reckon|reckons|reckoned|rang|phoned|texted|emailed|quote|quotes|want|have|are|promise|promises)$/;
const NOBODY =
  /^(nobody|everyone|everybody|someone|somebody|that|this|it|which|who|he|she|they|we|you|people|book|manual|label|note|receipt|invoice|box|calendar|clock|gauge)$/;
/** What a machine does in a question or a report, and no firm with an article: "before the Marlin can be called inspected". */
const STANDS = /^(can|is|has|needs|gets|goes|'s)$/;
const STANDS_BY = /^(is|are|has|have|needs|wants|in|was|were|'s|,)$/;
/** Whose doings are asked about: "did Tobin charge", "what's Mossop sitting on", "is Hadley late with". */
const dealsWith = (tokens: readonly Token[], at: number, to: number): boolean =>
  (/^(did|does|do|has|can|could|will|would)$/.test(word(tokens, at - 1)) &&
    /^(charge|want|say|send|sent|quote|quoted|have|got|get|finish|finished|promise|promised|do|done|post|deliver|ask|reckon|still|ever|make|start|started|need)$/.test(
      word(tokens, to),
    )) ||
  (/^(is|'s|are)$/.test(word(tokens, at - 1)) &&
    /^(late|behind|sitting|holding|hanging|got|doing|charging|asking|up|still|waiting)$/.test(
      word(tokens, to),
    ));

const HOLDS = /^(waiting|wait|waits|chase|chasing|held|hanging)$/;

const starts = (tokens: readonly Token[], at: number): boolean =>
  at === 0 || /^[.!?;:\n]$/.test(tokens[at - 1]?.text ?? '');

/** Verbs that open a sentence right before a name: "Chased Crale". */
const OPENS =
  /^(chased|rang|phoned|called|texted|emailed|sent|gave|told|asked|paid|owe|owed|handed|collected|ordered|bought|got|had|ring|chase|phone|call|text|email|send|give|tell|ask|pay)$/;

/** Names by their capital and where they stand: "to Harker's", "from Mill Lane Plating", "Brian says". */
function capitalised(tokens: readonly Token[], ordinary: (word: string) => boolean): Chunk[] {
  const found: Chunk[] = [];
  tokens.forEach((token, at) => {
    const led = starts(tokens, at - 1) && OPENS.test(word(tokens, at - 1));
    if (!isCapital(token) || (isCapital(tokens[at - 1]) && !led)) return;
    if (starts(tokens, at) && OPENS.test(token.word) && isCapital(tokens[at + 1])) return;
    const to = nameRun(tokens, at);
    if (to === at) return;
    const possessive = word(tokens, to) === "'s" ? 1 : 0;
    const name = asSaid(tokens, at, to);
    const near = word(tokens, at - 1);
    const lead = /^(young|old|our|big|little|good)$/.test(near) ? word(tokens, at - 2) : near;
    const hired = asksToDo(tokens, at, to);
    const plural = possessive === 1 && TELLS_OF.test(word(tokens, to + 1)) ? 1 : 0;
    const speaks =
      SPEAKS.test(word(tokens, to)) &&
      !(
        possessive === 1 &&
        !/^(got|had|been|gone|sent|done|says|promised|quoted|doing|making|going|put|let|moved|slipped|rung|rang|finished|told|coming|delayed|pushed|booked|asked|saying|taking|started|given|posted|delivered|just|now|not|still|hoping|waiting|running)$/.test(
          word(tokens, to + 1),
        )
      );
    const first = starts(tokens, at);
    const says = TELLS_OF.test(word(tokens, to + plural)) && !partStarts(tokens, at);
    const doubtful =
      first &&
      to === at + 1 &&
      ordinary(token.word) &&
      !(says && !/^(have|are|want)$/.test(word(tokens, to)) && !NOBODY.test(token.word));
    const owned = possessive === 1 && (partStarts(tokens, to + 1) || /^(on|up)$/.test(word(tokens, to + 1)));
    const supplier = (end: number, talks = speaks): Chunk => ({
      kind: 'supplier',
      from: at,
      to: end,
      supplier: asSaid(tokens, at, end),
      known: false,
      speaks: talks,
    });
    const answers =
      /^(agreed|agrees|approved|approves|okayed|ok'd|declined|vetoed)$/.test(word(tokens, to)) ||
      (/^(wants|needs)$/.test(word(tokens, to)) && /^(it|the|his|her|them)$/.test(word(tokens, to + 1))) ||
      (/^(says|said)$/.test(word(tokens, to)) && /^(yes|no|ok|go)$/.test(word(tokens, to + 1))) ||
      (possessive === 1 && /^(happy|fine|ok|okay|agreed|keen)$/.test(word(tokens, to + 1))) ||
      (/^(is|isn't)$/.test(word(tokens, to)) && /^(happy|fine|ok|okay|keen)$/.test(word(tokens, to + 1)));
    const ofJob =
      lead === 'the' && /^(for|on|off)$/.test(word(tokens, at - 2)) && STANDS_BY.test(word(tokens, to));
    if (ofJob) found.push({ kind: 'machine', from: at - 2, to, machine: name });
    else if (!first && dealsWith(tokens, at, to)) found.push(supplier(to));
    else if (hired && !doubtful) found.push(supplier(to));
    else if (answers && !doubtful) found.push({ kind: 'owner', from: at, to, owner: name });
    else if (
      /^(to|from|with|at|by|via|off|rang|phoned|texted|emailed|chased|sent|gave|paid|asked|handed)$/.test(
        lead,
      ) &&
      !(first && at === 0)
    )
      found.push(supplier(to + possessive));
    else if (owned && !doubtful) found.push({ kind: 'machine', from: at, to: to + 1, machine: name });
    else if (possessive === 1 && word(tokens, to + 1) === 'to' && !doubtful)
      found.push(supplier(to + 1, true));
    else if (
      word(tokens, to) === 'came' &&
      /^(back)$/.test(word(tokens, to + 1)) &&
      /^(to|with)$/.test(word(tokens, to + 2)) &&
      !doubtful
    )
      found.push(supplier(to, true));
    else if (plural === 1) found.push(supplier(to + 1, true));
    else if (TELLS_OF.test(lead) && !first && isBreak(tokens[to])) found.push(supplier(to, true));
    else if (lead === 'the' && !first && STANDS.test(word(tokens, to)))
      found.push({ kind: 'machine', from: at - 1, to, machine: name });
    else if (speaks && !doubtful) found.push(supplier(to));
    else if (lead === 'on' && !first && to === tokens.length - (/^[?.!]$/.test(word(tokens, to)) ? 1 : 0))
      found.push(
        HOLDS.test(word(tokens, at - 2))
          ? supplier(to)
          : { kind: 'machine', from: at - 1, to, machine: name },
      );
    else if (first && !doubtful && word(tokens, to) === 'road' && /^test/.test(word(tokens, to + 1)))
      found.push({ kind: 'machine', from: at, to, machine: name });
    else if (/^(the|this|that)$/.test(lead) && !first) {
      const job = /^(job|project|rebuild|restoration|one)$/.test(word(tokens, to)) ? 1 : 0;
      const on = /^(on|for)$/.test(word(tokens, at - 2)) ? 1 : 0;
      found.push({
        kind: 'machine',
        from: at - 1 - on,
        to: to + job + possessive * (1 - job),
        machine: name,
      });
    } else if (first && word(tokens, to) === ':' && promises(tokens, to)) found.push(supplier(to));
    else if (first && word(tokens, to) === ':' && !partStarts(tokens, at))
      found.push({ kind: 'machine', from: at, to: to + 1, machine: name });
    else if (first && !doubtful && partStarts(tokens, to))
      found.push({ kind: 'machine', from: at, to, machine: name });
    else if (isBreak(tokens[to]) && (first ? firmAlone(tokens, at, to, ordinary) : isBreak(tokens[at - 1])))
      found.push(supplier(to));
  });
  return found;
}

/** A list of things, then the firm as a sentence of its own: "… circlips. Kelderby Spares. £64". */
const firmAlone = (
  tokens: readonly Token[],
  at: number,
  to: number,
  ordinary: (word: string) => boolean,
): boolean =>
  at > 1 && !partStarts(tokens, at) && tokens.slice(at, to).some(({ word: said }) => !ordinary(said));

/** What follows "Quillan:" is a supplier's word, not a machine's state. */
const promises = (tokens: readonly Token[], at: number): boolean =>
  tokens
    .slice(at, at + 8)
    .some((token) =>
      /^(promised|promise|says|said|ready|reckons|quoted|quote|expects|hopes|can)$/.test(token.word),
    );

/** Suppliers, owners and machines: those that the record knows, then those that their place in the sentence shows. */
export function names(
  tokens: readonly Token[],
  knownNames: Known | undefined,
  ordinary: (word: string) => boolean,
): Chunk[] {
  const suppliers = known(tokens, shortened(knownNames?.suppliers ?? [], ordinary), (said) => ({
    kind: 'supplier',
    supplier: said,
    known: true,
    speaks: false,
  })).map((chunk) =>
    chunk.kind === 'supplier' ? { ...chunk, speaks: SPEAKS.test(word(tokens, chunk.to)) } : chunk,
  );
  const machines = known(tokens, knownNames?.machines ?? [], (said, named) => ({
    kind: 'machine',
    machine: said.toLowerCase() === said ? named.name : said,
  }));
  const owners = known(tokens, bySurname(knownNames?.owners ?? [], ordinary), (said) => ({
    kind: 'owner',
    owner: said,
  }));
  const held = (chunk: Chunk): Chunk =>
    chunk.kind === 'supplier' && /^(at|with)$/.test(word(tokens, chunk.from - 1))
      ? { ...chunk, held: true }
      : chunk;
  return [
    ...suppliers,
    ...machines,
    ...owners,
    ...titled(tokens, ordinary),
    ...trades(tokens),
    ...firms(tokens),
    ...capitalised(tokens, ordinary),
    ...strangers(tokens, ordinary),
  ].map(held);
}
