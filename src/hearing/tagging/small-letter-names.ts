import { monthAt, weekdayAt } from '../dates/calendar-words.js';
import { isEveryday } from '../text/ordinary-words.js';
import type { Token } from '../text/tokens.js';
import { wordAt as word } from '../text/word-at.js';
import type { Chunk } from './chunk.js';
import { asSaid, SPEAKS } from './name-words.js';
import { isTradeWord, partOf } from './part-index.js';

const INSTEAD = /^(me|him|her|us|them|you|mine|ours|yours|lunch|bed)$/;

const isSmall = (token: Token | undefined): token is Token =>
  token?.kind === 'word' && /^[a-z]{4,}$/.test(token.text);

const isStrange = (token: Token | undefined, ordinary: (word: string) => boolean): boolean =>
  isSmall(token) &&
  !ordinary(token.word) &&
  !ordinary(token.word.replace(/s$/, '')) &&
  !INSTEAD.test(token.word);

/** "took the head to quilter for a skim": a word that is no everyday one, where only somebody's name makes sense. */
const isRare = (tokens: readonly Token[], at: number): boolean => {
  const token = tokens[at];
  const next = tokens[at + 1];
  return (
    isSmall(token) &&
    /^(to|from|at|with|by)$/.test(word(tokens, at - 1)) &&
    (next === undefined ||
      (next.kind === 'word' && /^(for|today|yesterday|this|says|said|reckons?)$/.test(next.word))) &&
    !isEveryday(token.word) &&
    !isTradeWord(token.word) &&
    partOf(token.word, token) === undefined &&
    !/(ing|ed|ly|s)$/.test(token.word)
  );
};

/** "on the pellinor", "road tested the tressock": a machine by a name that no word is. */
const ofMachine = (tokens: readonly Token[], at: number): boolean =>
  word(tokens, at - 1) === 'the' && /^(on|tested|re|for|about)$/.test(word(tokens, at - 2));

/** A name in small letters, as a recogniser writes it: a word that nobody else has, where a supplier stands. */
export function strangers(tokens: readonly Token[], ordinary: (word: string) => boolean): Chunk[] {
  return tokens.flatMap((token, at): Chunk[] => {
    if (
      !isSmall(token) ||
      !(isStrange(token, ordinary) || isRare(tokens, at)) ||
      monthAt(tokens, at) !== undefined ||
      weekdayAt(tokens, at) !== undefined
    )
      return [];
    if (ofMachine(tokens, at)) return [{ kind: 'machine', from: at, to: at + 1, machine: token.text }];
    const led = /^(to|from|with|at|by|rang|phoned|texted|emailed|chased|chase)$/.test(word(tokens, at - 1));
    const speaks =
      SPEAKS.test(word(tokens, at + 1)) && !/^(is|are|'s|has|have|had|can|will)$/.test(word(tokens, at + 1));
    const holds = at === 0 && /^(has|have)$/.test(word(tokens, 1)) && /^(got|had)$/.test(word(tokens, 2));
    if (!led && !speaks && !holds) return [];
    const partner = /^(and|&)$/.test(word(tokens, at + 1)) && isStrange(tokens[at + 2], ordinary) ? 2 : 0;
    const to = at + 1 + partner;
    return [{ kind: 'supplier', from: at, to, supplier: asSaid(tokens, at, to), known: false, speaks }];
  });
}

/** What firms' names end in; in small letters too, as a recogniser or a hurried thumb writes them. */
const FIRM = new Set(
  'co company works brothers bros sons ltd limited engineering platers plating spares restorations motorcycles cycles autos metalwork castings coatings enamels rewinds services supplies partners'.split(
    ' ',
  ),
);
/** The trades that firms are named for, which are plain words too: only behind a word that nothing at the bench is called by. */
const FIRM_OF_TRADE = new Set(
  'electrics trim trimming tyres tyre wheels chrome paint paints gears foundry magnetos instruments gauges clocks blasting polishing welding machining fabrication fabrications leather saddlery bearings bolts fasteners fixings spokes parts motors cables upholstery exhausts grinding rebores refinishing finishing finishers coating powder signs tanks frames forks brakes linings springs chains seals gaskets tools steel metals castings patterns carbs carburettors ignition speedos crankshafts cylinders components finishes classics vintage cycle bikes'.split(
    ' ',
  ),
);
const PLAIN = new Set(
  'the a an for of in on my our his her their your new old some any this that these those and both all two three four bench shop front rear left right nearside offside top bottom inner outer spare good bad local usual same other another home work'.split(
    ' ',
  ),
);
const WORDS_IN_FIRM = 4;

/** A firm's name in small letters: "from old wheel co", "with ravel and sons". */
export function firms(tokens: readonly Token[]): Chunk[] {
  return tokens.flatMap((token, at): Chunk[] => {
    const ofTrade = FIRM_OF_TRADE.has(token.word);
    if (!(FIRM.has(token.word) || ofTrade) || /^\p{Lu}/u.test(token.text)) return [];
    const lead = Array.from({ length: WORDS_IN_FIRM }, (_, back) => at - 1 - back).find((place) =>
      /^(to|from|with|at|by|off)$/.test(word(tokens, place)),
    );
    if (lead === undefined || lead === at - 1) return [];
    const said = tokens.slice(lead + 1, at + 1);
    if (said.some(({ kind, word: each }) => kind !== 'word' || /^(the|a|an|for|of|in|on)$/.test(each)))
      return [];
    if (
      ofTrade &&
      said.slice(0, -1).some((each) => PLAIN.has(each.word) || partOf(each.word, each) !== undefined)
    )
      return [];
    // "back from powder coating" names the work, nobody.
    if (ofTrade && said.slice(0, -1).every((each) => isTradeWord(each.word))) return [];
    const supplier = asSaid(tokens, lead + 1, at + 1);
    return [{ kind: 'supplier', from: lead + 1, to: at + 1, supplier, known: false, speaks: false }];
  });
}
