import { joinTokens, type Token } from '../text/tokens.js';
import { isListed } from '../text/ordinary-words.js';
import { wordAt } from '../text/word-at.js';

/** What a firm or a person does when it tells something. */
export const SPEAKS =
  /^(says|said|say|reckons|reckon|reckoned|promised|promises|promising|expects|quoted|quotes|rang|phoned|emailed|texted|called|messaged|wants|thinks|told|confirmed|hopes|can|will|'ll|has|'s|won't|can't|'ve|had|is|are|wrote|got|swears|took|promise|put|puts|do|charges|charged|tells|couldn't|wouldn't|refused|sent|delivered|posted|does|charge|keep|keeps|did|finished|have|makes|made|never|collected|collects|fetched|picked|brought|dropped|want|returned|shifted|moved|rung|changed|knocked|lost|forgot|forgotten|think|need|needs|mentioned|missed|skipped|reported|asked|asks|ask)$/;

const MEANWHILE = /^(just|still|now|already|also|only|always|then|since)$/;

/** Where the verb of a speaker stands whose name ends before `at`: "Larkspur now say", "Brayshaws just rung". */
export const verbAt = (tokens: readonly Token[], at: number): number =>
  MEANWHILE.test(wordAt(tokens, at)) && SPEAKS.test(wordAt(tokens, at + 1)) ? at + 1 : at;

export const asSaid = (tokens: readonly Token[], from: number, to: number): string =>
  joinTokens(tokens.slice(from, to));

/** Capitals that begin no name: at the head of a sentence, abbreviations, terms of the trade. */
const NO_NAME =
  /^(i|is|are|did|does|do|has|have|had|was|were|can|could|will|would|should|any|what|when|where|who|how|which|why|the|a|an|and|but|so|right|oh|no|yes|not|both|all|for|from|to|on|in|at|with|by|got|sent|ordered|fitted|took|ok|okay|vat|tdc|btdc|bsf|bsw|ba|unf|unc|led|usa|uk|oe|oem|nos|od|id|nds|nde|tig|mig|ptfe|pvc|hss|nb|ps|eta|mot|am|pm|ht|lt|cdi|dc|ac|en|rh|lh|rhs|lhs|ns|os|us|postie|postman|courier|carrier|driver|thou|ey|ay|aye|appen|mebbe|happen|whitworth|gaffer|boss|woodruff|bakelite|allen|phillips)$/;

/** Whether a name may begin, or go on, with the token. */
export const isCapital = (token: Token | undefined): boolean =>
  token?.kind === 'word' &&
  token.text !== token.word &&
  /^\p{Lu}/u.test(token.text) &&
  !NO_NAME.test(token.word) &&
  !/n['’]t$/.test(token.word) &&
  token.text.length > 1;

/** How words end that may tell of a thing, as against a name: "the sludgy sump". */
const ADJECTIVE = /(y|ed|ing|ish|ous|al|ic|tive|sive|less|ful|en|er|est)$/;
/** How names don't end: the bench's own words, in no dictionary, do ("claggy", "gunked"). */
const SLANG = /([gkmpt]y|[^r]ed)$/;

/** Whether a word may tell of a thing, as against a name that only ends like one ("Orbury"). */
export const describes = (word: string): boolean =>
  ADJECTIVE.test(word) && (isListed(word) || SLANG.test(word));
