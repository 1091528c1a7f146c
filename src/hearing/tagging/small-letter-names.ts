import { monthAt, weekdayAt } from '../dates/calendar-words.js';
import { isEveryday, isListed } from '../text/ordinary-words.js';
import type { Token } from '../text/tokens.js';
import { wordAt as word } from '../text/word-at.js';
import type { Chunk } from './chunk.js';
import { asSaid, describes, SPEAKS, verbAt } from './name-words.js';
import { isTradeWord, partOf } from './part-index.js';
import { partStarts } from './part-starts.js';

const INSTEAD = /^(gaffer|missus|me|him|her|us|them|you|mine|ours|yours|lunch|bed)$/;

const isSmall = (token: Token | undefined): token is Token =>
  token?.kind === 'word' && /^[a-z]{4,}$/.test(token.text);

const isStrange = (token: Token | undefined, ordinary: (word: string) => boolean): boolean =>
  isSmall(token) &&
  !ordinary(token.word) &&
  !isListed(token.word) &&
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

/** Nothing but small talk stands before it: "so the pellhurst the kick start …". */
const opensWith = (tokens: readonly Token[], at: number): boolean =>
  at <= 3 &&
  tokens.slice(0, at).every(({ word: said }) => /^(so|right|now|then|ok|well|and|also|next)$/.test(said));

/** "on the pellinor", "road tested the tressock", "the carnow tank": a machine by a name that no word is. */
function ofMachine(tokens: readonly Token[], at: number): boolean {
  const article = word(tokens, at - 1) === 'the';
  const lead = word(tokens, at - 2);
  if (article && /^(on|tested|re|for|about)$/.test(lead)) return true;
  const ownersOf = lead === 'of' && word(tokens, at - 3) === 'owner';
  if (article && (/^(ran|started|rode|fired|off)$/.test(lead) || ownersOf)) return true;
  if (
    article &&
    /^(took|had|gave)$/.test(lead) &&
    /^(out|up|down|round|over|along|a)$/.test(word(tokens, at + 1))
  )
    return true;
  if (article && opensWith(tokens, at - 1) && /^(the|its|this)$/.test(word(tokens, at + 1))) return true;
  if (!(article || (at === 0 && word(tokens, at).length > 5)) || describes(word(tokens, at))) return false;
  return partStarts(tokens, at + 1 + (word(tokens, at + 1) === "'s" ? 1 : 0));
}

const AUXILIARY = /^(is|are|'s|has|have|had|can|will)$/;

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
    if (ofMachine(tokens, at))
      return [{ kind: 'machine', from: at, to: at + 1, machine: token.text.replace(/s$/, '') }];
    const led = /^(to|from|with|at|by|off|via|through|rang|phoned|texted|emailed|chased|chase)$/.test(
      word(tokens, at - 1),
    );
    const verb = word(tokens, verbAt(tokens, at + 1));
    const speaks = SPEAKS.test(verb) && !AUXILIARY.test(verb);
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
/** Whether a name ends in what firms' names end in. */
export const isFirm = (token: Token | undefined): boolean =>
  token !== undefined && (FIRM.has(token.word) || FIRM_OF_TRADE.has(token.word));

const PLAIN = new Set(
  'the a an for of in on my our his her their your new old some any this that these those and both all two three four bench shop front rear left right nearside offside top bottom inner outer spare good bad local usual same other another home work stainless alloy steel brass copper aluminium alloys rubber leather genuine original pattern second'.split(
    ' ',
  ),
);
const WORDS_IN_FIRM = 4;

/** "tarn grinding have got the crank", "pellow rewinds rang": the firm opens the message and tells something. */
function opensWithFirm(tokens: readonly Token[], at: number): boolean {
  if (at < 1 || at > 2) return false;
  const verb = verbAt(tokens, at + 1);
  const does = word(tokens, verb);
  const told =
    SPEAKS.test(does) &&
    (!AUXILIARY.test(does) || /^(got|had|just|been|told|said)$/.test(word(tokens, verb + 1)));
  return (
    told &&
    tokens
      .slice(0, at)
      .every((each) => each.kind === 'word' && !isEveryday(each.word) && !isTradeWord(each.word))
  );
}

/** A firm's name in small letters: "from old wheel co", "with ravel and sons". */
export function firms(tokens: readonly Token[]): Chunk[] {
  return tokens.flatMap((token, at): Chunk[] => {
    const ofTrade = FIRM_OF_TRADE.has(token.word);
    if (!(FIRM.has(token.word) || ofTrade) || /^\p{Lu}/u.test(token.text)) return [];
    if (opensWithFirm(tokens, at))
      return [
        {
          kind: 'supplier',
          from: 0,
          to: at + 1,
          supplier: asSaid(tokens, 0, at + 1),
          known: false,
          speaks: true,
        },
      ];
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
