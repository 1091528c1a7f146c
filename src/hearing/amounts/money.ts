import type { Cost, Currency } from '../reading.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { currencyNamed, hundreds, number, roughAfter, SIGNS, upperFigure } from './money-figures.js';
import { aboutBefore, tailAt } from './money-frame.js';

/** A sum of money: tokens `from` up to `to`. */
export type MoneySpan = {
  from: number;
  to: number;
  cost: Cost;
  /** "a pair", "the set of 4": how many pieces the sum is for. */
  pieces: number | null;
  /** "all in", "the lot": for several things together. */
  together: boolean;
  /** False where only the sense of the sentence makes a bare figure a sum. */
  sure: boolean;
};

type Sum = { amount: number; currency: Currency; length: number; about: boolean; sure: boolean };

const NOTES: ReadonlyMap<string, number> = new Map([
  ['fiver', 5],
  ['fivers', 5],
  ['tenner', 10],
  ['tenners', 10],
  ['grand', 1000],
  ['pony', 25],
  ['monkey', 500],
  ['ton', 100],
  ['bullseye', 50],
]);
/** "£40", "GBP 350", "£40-50". */
function signed(tokens: readonly Token[], at: number): Sum | null {
  const word = wordAt(tokens, at);
  const currency = SIGNS.get(word);
  if (currency === undefined) return null;
  const figure = upperFigure(tokens, at + 1);
  if (figure === null) return null;
  let end = at + 1 + figure.length;
  const rough = roughAfter(tokens, end);
  end += rough;
  return { amount: figure.amount, currency, length: end - at, about: figure.range || rough > 0, sure: true };
}

/** "40 quid", "3 GBP 1 pence", "20-odd pounds", "48.5 MGBP". */
function named(tokens: readonly Token[], at: number): Sum | null {
  const figure = upperFigure(tokens, at);
  if (figure === null) return null;
  const rough = roughAfter(tokens, at + figure.length);
  let end = at + figure.length + rough;
  const word = wordAt(tokens, end);
  const millions = /^m(gbp|eur|usd)$/.exec(word)?.[1];
  if (millions !== undefined) {
    const currency = SIGNS.get(millions) ?? 'GBP';
    return {
      amount: figure.amount * 1_000_000,
      currency,
      length: end + 1 - at,
      about: figure.range,
      sure: true,
    };
  }
  const thousands =
    wordAt(tokens, end - 1) === 'k' &&
    tokens[end - 1]?.before === '' &&
    !tokens.some((token) => /^(ohms?|kohms?|resistance)$/.test(token.word)) &&
    !/^(ohms?|miles?|revs?|rpm|km|hours?|volts?|resistors?)$/.test(word);
  if (thousands || (word === 'mark' && wordAt(tokens, at - 1) === 'the'))
    return {
      amount: figure.amount,
      currency: 'GBP',
      length: end + (thousands ? 0 : 1) - at,
      about: figure.range || rough > 0 || !thousands,
      sure: !thousands,
    };
  const currency = currencyNamed(word, figure.amount);
  if (currency === undefined) return null;
  const next = wordAt(tokens, end + 1);
  // "20 pounds a square inch", "40 pounds feet"
  const notMoney =
    /^(foot|feet|ft|per|of|pressure|compression|force|inch)$/.test(next) ||
    (next === 'a' && wordAt(tokens, end + 2) === 'square');
  if (/^pounds?$/.test(word) && notMoney) return null;
  end += 1;
  const pence = penceAfter(tokens, end);
  const later = roughAfter(tokens, end + pence.length);
  return {
    amount: figure.amount + pence.amount,
    currency,
    length: end + pence.length + later - at,
    about: figure.range || rough > 0 || later > 0,
    sure: true,
  };
}

/** What may follow pence that are only a figure: "three pounds seventy-five each". */
const AFTER_PENCE =
  /^(each|apiece|a|the|plus|inc|including|and|all|for|per|due|from|off|at|with|posted|delivered|cash|ready|to|in|on)$/;

/** "3 pounds 50", "3 GBP and one", "12 quid 50 pence". */
function penceAfter(tokens: readonly Token[], at: number): { amount: number; length: number } {
  const and = wordAt(tokens, at) === 'and' ? 1 : 0;
  const one = wordAt(tokens, at + and) === 'one' && tokens[at + and + 1] === undefined ? 1 : undefined;
  const value = number(tokens, at + and) ?? one;
  const named = /^(p|pence|penny)$/.test(wordAt(tokens, at + and + 1));
  const closing = tokens[at + and + 1];
  const plain =
    value !== undefined &&
    Number.isInteger(value) &&
    value > 0 &&
    value < 100 &&
    (closing === undefined || closing.kind === 'mark' || AFTER_PENCE.test(closing.word)) &&
    (and === 1 || value >= 10);
  if (value === undefined || (!named && !plain)) return { amount: 0, length: 0 };
  return { amount: value / 100, length: and + 1 + (named ? 1 : 0) };
}

/** What follows a thousand pounds, where a thing follows a grand one. */
const AFTER_GRAND =
  /^(for|each|all|plus|the|and|or|to|inc|including|in|on|off|now|quid|by|from|at|with|he|she|they|total)$/;

/** "50p", "470 pence", "one penny", "a tenner", "two fivers", "a grand", "a couple of grand". */
function coins(tokens: readonly Token[], at: number): Sum | null {
  const couple =
    wordAt(tokens, at) === 'a' && wordAt(tokens, at + 1) === 'couple'
      ? wordAt(tokens, at + 2) === 'of'
        ? 3
        : 2
      : 0;
  const word = wordAt(tokens, at);
  const half = word === 'half' && wordAt(tokens, at + 1) === 'a';
  const value = couple > 0 ? 2 : half ? 0.5 : /^(a|one)$/.test(word) ? 1 : number(tokens, at);
  const length =
    couple > 0 ? couple : half ? 2 : /^(a|one)$/.test(word) || number(tokens, at) !== undefined ? 1 : 0;
  const noun = wordAt(tokens, at + length);
  if (value !== undefined && length > 0 && /^(p|pence|penny|pee)$/.test(noun))
    return {
      amount: Number((value / 100).toFixed(4)),
      currency: 'GBP',
      length: length + 1,
      about: false,
      sure: true,
    };
  const note = couple > 0 && noun === '100' ? 100 : NOTES.get(noun);
  if (note === undefined || (length === 0 && !/^(fiver|tenner)$/.test(noun))) return null;
  if (/^(ton|pony|monkey)$/.test(noun) && !/^(a|one|half)$/.test(word)) return null;
  // "a grand heap of rust"
  const after = tokens[at + length + 1];
  if (noun === 'grand' && word === 'a' && after?.kind === 'word' && !AFTER_GRAND.test(after.word))
    return null;
  if (noun === 'ton' && /^(of|up)$/.test(wordAt(tokens, at + length + 1))) return null;
  const andHalf =
    wordAt(tokens, at + length + 1) === 'and' &&
    wordAt(tokens, at + length + 2) === 'a' &&
    wordAt(tokens, at + length + 3) === 'half';
  const amount = note * ((value ?? 1) + (andHalf ? 0.5 : 0));
  return {
    amount,
    currency: 'GBP',
    length: length + 1 + (andHalf ? 3 : 0),
    about: couple > 0,
    sure: noun !== 'ton',
  };
}

const ASKS =
  /^(cost|costs|costing|quoted|quote|quotes|wants|wanted|want|charging|charge|charges|charged|paid|pay|price|priced|asking|asked|owe|owes|owed|stung|bill|estimate|estimates|estimated|spent|spend|worth|budget|invoice|total|reckons|says|said)$/;
const LINKS =
  /^(at|for|to|of|is|was|has|gone|went|now|off|'s|about|around|it|them|him|me|us|roughly|say|only|just|another|be|up|came|comes|come|a|maybe|under|over|nearly|between|somewhere|in|region|think)$/;

/** What one of is paid for: "eighty-five a wheel". */
const PIECE =
  /^(head|pop|throw|piece|wheel|side|pair|set|leg|end|corner|hole|shoe|bore|unit|rim|lever|cylinder|barrel|cover|bush|valve|guide|item)$/;

/** A bare figure after a word of paying: "quoted 120", "comes to 85", "wants 60 for it". */
function asked(tokens: readonly Token[], at: number): Sum | null {
  const figure = upperFigure(tokens, at);
  if (figure === null) return null;
  const end = at + figure.length + roughAfter(tokens, at + figure.length);
  const next = tokens[end];
  const closed =
    next === undefined ||
    next.kind === 'mark' ||
    /^(for|each|all|plus|including|inc|ex|a|the|and|apiece|per|to|on|or|but|if|from|with|by|posted|delivered|cash)$/.test(
      next.word,
    );
  const about = figure.range || end > at + figure.length;
  if (!closed) return null;
  if (figure.amount >= 110 && hundreds(tokens, at) !== null && /^(at|for)$/.test(wordAt(tokens, at - 1)))
    return { amount: figure.amount, currency: 'GBP', length: end - at, about, sure: false };
  if (
    /^(each|apiece)$/.test(wordAt(tokens, end)) ||
    (/^(plus|inc|including|ex|incl)$/.test(wordAt(tokens, end)) &&
      /^(vat|the)$/.test(wordAt(tokens, end + 1))) ||
    wordAt(tokens, end) === '+' ||
    (wordAt(tokens, end) === 'all' && /^(in|up|told|found)$/.test(wordAt(tokens, end + 1))) ||
    (wordAt(tokens, end) === 'the' &&
      /^(lot|pair|set|two|three)$/.test(wordAt(tokens, end + 1)) &&
      figure.amount >= 5) ||
    /^(posted|delivered|cash)$/.test(wordAt(tokens, end)) ||
    /^(tops|max)$/.test(wordAt(tokens, end)) ||
    (/^(a|per)$/.test(wordAt(tokens, end)) && PIECE.test(wordAt(tokens, end + 1)) && figure.amount >= 5)
  )
    return {
      amount: figure.amount,
      currency: 'GBP',
      length: end - at,
      about,
      sure: wordAt(tokens, end) !== 'each',
    };
  for (let back = at - 1; back >= Math.max(0, at - 4); back -= 1) {
    const word = wordAt(tokens, back);
    if (
      /^(comes|came|come|coming|works|worked)$/.test(word) &&
      /^(to|out|in)$/.test(wordAt(tokens, back + 1))
    )
      return { amount: figure.amount, currency: 'GBP', length: end - at, about, sure: true };
    if (ASKS.test(word) && !(word === 'charging' && figure.amount < 30)) {
      const weak = /^(says|said|reckons|want|wants|wanted)$/.test(word);
      const forIt = wordAt(tokens, end) === 'for' || wordAt(tokens, end) === 'to';
      if (weak && !forIt) return null;
      return { amount: figure.amount, currency: 'GBP', length: end - at, about, sure: !weak };
    }
    if (!LINKS.test(word)) return null;
  }
  return null;
}

/** Words that a sum may begin with, beside signs and figures. */
const OPENS = new Set(['a', 'one', 'half', 'fiver', 'tenner']);
const mayOpen = ({ kind, word }: Token): boolean => kind === 'number' || OPENS.has(word) || SIGNS.has(word);

/** All sums of money, in the order said. Number words must have been turned into figures. */
export function sums(tokens: readonly Token[]): MoneySpan[] {
  const spans: MoneySpan[] = [];
  for (let at = 0; at < tokens.length;) {
    const token = tokens[at];
    if (token === undefined || !mayOpen(token)) {
      at += 1;
      continue;
    }
    const sum = signed(tokens, at) ?? coins(tokens, at) ?? named(tokens, at) ?? asked(tokens, at);
    if (sum === null) {
      at += 1;
      continue;
    }
    // "45 for the rings plus 6 quid post": carriage is no part's price.
    if (
      spans.length > 0 &&
      /^(post|postage|carriage|delivery|shipping)$/.test(wordAt(tokens, at + sum.length))
    ) {
      at += sum.length + 1;
      continue;
    }
    const lead = aboutBefore(tokens, at);
    const tail = tailAt(tokens, at + sum.length);
    const to = at + sum.length + tail.length;
    const about = sum.about || lead.about || tail.about;
    const cost: Cost = {
      amount: Number(sum.amount.toFixed(2)),
      currency: sum.currency,
      about,
      each: tail.each,
      vat: tail.vat,
    };
    spans.push({ from: lead.from, to, cost, pieces: tail.pieces, together: tail.together, sure: sum.sure });
    at = to;
  }
  return spans;
}
