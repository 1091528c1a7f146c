import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';

const NAMES = '(?:book|manual|spec|specification|drawing|data sheet|limit|wear limit|service limit)';
const LITTLE =
  "(?: (?:about|around|at|over|under|only|just|more than|less than|between|of|a|the|is|was|'s|to))*";
/** What leads up to a value that a thing should have: "book says", "should be", "the limit is", "supposed to be". */
const LEADS = new RegExp(
  `\\b(?:${NAMES}(?: figure| value| size)?(?: (?:says?|said|gives?|calls? for|is|was|being|allows?|wants?|reckons?|'s))?` +
    `|(?:should|ought to|must|supposed to|meant to|wants? to|needs? to|has to|have to)(?: only)? (?:be|have|read|measure|stand|give|show)` +
    `|nominal(?:ly)?|minimum|maximum|(?:min|max)(?: \\.)?|new ones? (?:is|are|measures?)|standard(?: is| was)?|allowed|tolerance|as against|up against|versus|vs)${LITTLE}$`,
);
/** What work is to come to: "rebore to twenty over", "shim to 4 thou", "take no more than 20 thou off"; "made out of 16 gauge". */
const AIM =
  /\b(?:rebore|regrind|bore|grind|ream|skim|hone|turn|machine|shim|open|close|file|cut|mill)(?: (?:it|them|that|the|out|down|up|back|head|bore|barrel|bush|journals?))* to(?: (?:plus|about|just|\+))*$|\b(?:take|taking|skim|skimming)(?: (?:it|about|another|no|more|than|off|up|to|only))*$/;
const STOCK = /\b(?:from|out of|in)$/;
const TAIL =
  /^(?:(?:is|'s|was) )?(?:the )?(?:wear )?(?:limit|max|maximum|min|minimum|nominal|by the book|in the book|new|standard)\b/;
const REACH = 7;

const joined = (tokens: readonly Token[]): string => tokens.map(({ word }) => word).join(' ');

/** Whether a value is one that a thing should have, not one that was measured on it. */
export function isNominal(tokens: readonly Token[], { from, to }: { from: number; to: number }): boolean {
  const before = tokens.slice(Math.max(0, from - REACH), from);
  const stop = before.findLastIndex(({ text }) => /^[.;!?\n]$/.test(text));
  const led = joined(before.slice(stop + 1));
  return (
    LEADS.test(led) ||
    AIM.test(led) ||
    (STOCK.test(led) && /^(gauge|swg)$/.test(wordAt(tokens, to - 1))) ||
    (TAIL.test(joined(tokens.slice(to, to + 3))) && tokens[to]?.before !== '')
  );
}
