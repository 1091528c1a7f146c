import { monthAt, weekdayAt } from '../dates/calendar-words.js';
import type { Token } from '../text/tokens.js';
import { wordAt as word } from '../text/word-at.js';
import type { Chunk } from './chunk.js';
import { asksToDo, isBreak } from './hired.js';
import { asSaid, isCapital, SPEAKS } from './name-words.js';
import { partOf } from './part-index.js';

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
export function capitalised(tokens: readonly Token[], ordinary: (word: string) => boolean): Chunk[] {
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
