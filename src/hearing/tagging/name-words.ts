import { joinTokens, type Token } from '../text/tokens.js';

/** The word at a place; empty beyond the ends. */
export const word = (tokens: readonly Token[], at: number): string => tokens[at]?.word ?? '';

/** What a firm or a person does when it tells something. */
export const SPEAKS =
  /^(says|said|say|reckons|reckon|reckoned|promised|promises|promising|expects|quoted|quotes|rang|phoned|emailed|texted|called|messaged|wants|thinks|told|confirmed|hopes|can|will|'ll|has|'s|won't|can't|'ve|had|is|are|wrote|got|swears|took|promise|promised|put|puts|do|charges|charged|tells|couldn't|wouldn't|refused|sent|delivered|posted|does|charge|keep|keeps|did|finished|have|makes|made|never|are)$/;

export const asSaid = (tokens: readonly Token[], from: number, to: number): string =>
  joinTokens(tokens.slice(from, to));
