import { SAID_SHORT, SCOTS_NOT, SLASHED, SWALLOWED } from './dialect.js';
import { runTogether } from './run-together.js';
import { SHORTHAND } from './shorthand.js';

/** One word, number or mark of a message. */
export type Token = {
  kind: 'word' | 'number' | 'mark';
  /** As it stands in the message (or as repair has put it). */
  text: string;
  /** For matching: lower case, straight apostrophes, no stops in abbreviations. */
  word: string;
  /** The white space (or dropped hyphen) that stood before it. */
  before: string;
  /** Of a number. */
  value?: number;
  /** A number said as a rank: "20th". */
  ordinal?: boolean;
  /** Put there by dictation repair, on the ground of sound alone. */
  repaired?: boolean;
};

const PATTERN = new RegExp(
  [
    '(?<number>\\d{1,3}(?:,\\d{3})+(?:\\.\\d+)?|\\d+(?:\\.\\d+)?|\\.\\d+)(?<rank>(?:st|nd|rd|th)(?![a-z]))?',
    '(?<slashed>(?<![\\p{L}\\d])[a-z]/(?:shaft|box|guard|lamp|light|arm|rod|rest|bar|start|case|cover|stand|plate|shoe|bearing|counter|grip|guide|spring|coat|coated|blast|blasted|gasket|tank|nut|pipe|wheel|lever)s?(?![a-z]))',
    '(?<quarter>[no]/s/[fr](?![a-z/]))|(?<short>(?:[a-z]/[a-z](?![a-z/\\d]))|(?:[a-z]\\.){2,}(?:[a-z](?![a-z]))?)',
    "(?<clipped>(?<![\\p{L}\\d])(?:th?|o|an|wi|i)['’](?=\\s)|(?:\\p{L}{3,}|go|do|be|hav)in['’](?![\\p{L}]))",
    "(?<word>\\p{L}[\\p{L}\\p{M}]*(?:['’]\\p{L}+)*)",
    "(?<tail>['’](?:s|ve|re|ll|d|m|em|uns?|ave|as|ad|e|im|er|ere|ead|alf|bout|orn|ub|ole|andle|cos|til)(?![\\p{L}]))",
    '(?<mark>\\S)',
  ].join('|'),
  'giu',
);

const TAIL = /^(.+)('(?:s|ve|re|ll|d|m))$/;

const mark = (text: string, before: string): Token => ({ kind: 'mark', text, word: text, before });

/** Nothing at a bench is counted, measured or paid for in more; a longer run of figures is a key struck too long. */
const LARGEST = 1e9;

function numberToken(text: string, rank: string | undefined, before: string): Token {
  const value = Number(text.replace(/,/g, ''));
  if (value > LARGEST) return { kind: 'word', text: text + (rank ?? ''), word: text.toLowerCase(), before };
  const token: Token = { kind: 'number', text, word: text.toLowerCase(), before, value };
  return rank === undefined ? token : { ...token, text: text + rank, ordinal: true };
}

/** "l/shaft": its first word in full, the plural kept. */
function slashed(text: string, before: string): Token {
  const said = text.toLowerCase();
  const word =
    SLASHED.get(said) ??
    (SLASHED.has(said.replace(/s$/, '')) ? `${SLASHED.get(said.replace(/s$/, '')) ?? ''}s` : said);
  return { kind: 'word', text, word, before };
}

/** "N/S/F": nearside front. */
function quarter(text: string, before: string): Token[] {
  const word = text.toLowerCase();
  return [
    { kind: 'word', text: text.slice(0, 3), word: word.slice(0, 3), before },
    { kind: 'word', text: text.slice(3), word: word.endsWith('f') ? 'front' : 'rear', before: '' },
  ];
}

/** Tails that a thumb or a recogniser leaves the apostrophe out of: "thats", "whos", "ive". */
const RUN_ON =
  /^(that|what|where|there|who|he|she|here|how)(s)$|^(i)(m|ve)$|^(it|that|they|you|there)(ll)$|^(they|you)(ve|re)$|^(we)(ve)$/;
/** "dont" and its like are one word, with or without the apostrophe. */
const RUN_ON_NOT = /^(do|does|did|is|are|was|were|has|have|had|ca|wo|could|would|should|ai)nt$/;
const plainWord = (word: string): string =>
  SAID_SHORT.get(word) ??
  (/in'$/.test(word) ? word.replace(/'$/, 'g') : undefined) ??
  (RUN_ON_NOT.test(word) && word !== 'want'
    ? word.replace(/nt$/, "n't")
    : word.replace(SCOTS_NOT, (_, verb: string) =>
        verb === 'will' ? "won't" : `${verb.replace('can', 'ca')}n't`,
      ));

/** A word, with a tail such as 's or 've as a token of its own. */
function wordTokens(text: string, before: string): Token[] {
  const word = text.toLowerCase().replace(/’/g, "'");
  const short = SHORTHAND.get(word);
  if (short !== undefined) return [{ kind: 'word', text, word: short, before }];
  const [, article, rest] = SWALLOWED.exec(text) ?? [];
  if (article !== undefined && rest !== undefined)
    return [{ kind: 'word', text: article, word: 'the', before }, ...wordTokens(rest, '')];
  const runOn = RUN_ON.exec(word)
    ?.slice(1)
    .filter((part) => part !== undefined);
  if (runOn?.[0] !== undefined) {
    const cut = runOn[0].length;
    return [
      { kind: 'word', text: text.slice(0, cut), word: runOn[0], before },
      { kind: 'word', text: text.slice(cut), word: `'${word.slice(cut)}`, before: '' },
    ];
  }
  const tail = TAIL.exec(word);
  const stem = tail?.[1];
  const end = tail?.[2];
  if (stem === undefined || end === undefined) return [{ kind: 'word', text, word: plainWord(word), before }];
  const cut = text.length - end.length;
  return [
    { kind: 'word', text: text.slice(0, cut), word: plainWord(stem), before },
    { kind: 'word', text: text.slice(cut), word: end, before: '' },
  ];
}

/** A hyphen inside a compound ("off-side", "twenty-five") joins words: it goes into the next word's `before`. */
function joinHyphens(tokens: Token[]): Token[] {
  const joined: Token[] = [];
  tokens.forEach((token, index) => {
    const previous = tokens[index - 1];
    const next = tokens[index + 1];
    const hyphen = /^[-‐‑]$/.test(token.text) && token.before === '' && next?.before === '';
    const between = previous?.kind === 'word' || next?.kind === 'word';
    if (hyphen && between && previous !== undefined && previous.kind !== 'mark' && next.kind !== 'mark') {
      tokens[index + 1] = { ...next, before: token.text };
      return;
    }
    joined.push(tokens[index] ?? token);
  });
  return joined;
}

/** Splits a message into tokens. `joinTokens` gives the message back, white space at its end aside. */
export function tokenise(text: string): Token[] {
  const tokens: Token[] = [];
  let end = 0;
  for (const match of text.matchAll(PATTERN)) {
    const space = text.slice(end, match.index);
    // A line of a message is a sentence.
    const line = /\n/.test(space) && tokens.length > 0 ? space.lastIndexOf('\n') : -1;
    if (line >= 0) tokens.push(mark('\n', space.slice(0, line)));
    const before = space.slice(line + 1);
    const groups = match.groups ?? {};
    const whole = match[0];
    end = match.index + whole.length;
    if (groups['number'] !== undefined) tokens.push(numberToken(groups['number'], groups['rank'], before));
    else if (groups['short'] !== undefined)
      tokens.push({ kind: 'word', text: whole, word: whole.toLowerCase().replace(/\./g, ''), before });
    else if (groups['slashed'] !== undefined) tokens.push(slashed(whole, before));
    else if (groups['quarter'] !== undefined) tokens.push(...quarter(whole, before));
    else if (groups['word'] !== undefined) tokens.push(...wordTokens(whole, before));
    else if (groups['tail'] !== undefined || groups['clipped'] !== undefined)
      tokens.push({
        kind: 'word',
        text: whole,
        word: plainWord(whole.toLowerCase().replace('’', "'")),
        before,
      });
    else tokens.push(mark(whole, before));
  }
  return joinHyphens(runTogether(tokens));
}

/** The text of tokens, with the space that stood between them. */
export function joinTokens(tokens: readonly Token[]): string {
  return tokens
    .map((token, index) => (index === 0 ? '' : token.before) + token.text)
    .join('')
    .trim();
}
