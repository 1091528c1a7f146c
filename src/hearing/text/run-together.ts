import type { Token } from './tokens.js';

const IT_IS =
  /^(the|a|an|not|been|got|all|in|on|off|out|back|at|just|only|gone|had|too|bent|cracked|worn|broken|seized|leaking|missing|fine|good|ok|okay|ready|done)$/;

/** Who is unwell, not "I'll": "he's ill", "been ill". */
const UNWELL = /^(is|are|was|were|'s|'re|'m|am|be|been|being|feel|feels|feeling|felt|taken|fell|very|too)$/;

const split = (token: Token, cut: number, first: string, second: string): Token[] => [
  { ...token, text: token.text.slice(0, cut), word: first },
  { ...token, text: token.text.slice(cut), word: second, before: '' },
];

const AND: Pick<Token, 'word'> = { word: 'and' };

/**
 * Small words that a thumb or a recogniser writes as other ones, told by their neighbours: "its cracked" (it is),
 * "ill weld it" (I will), "an the other", "nuts n bolts" (and).
 */
export const runTogether = (tokens: readonly Token[]): Token[] =>
  tokens.flatMap((token, at): Token[] => {
    const [before, next] = [tokens[at - 1], tokens[at + 1]];
    if (next?.kind === undefined || next.kind === 'mark') return [token];
    if (token.word === 'its' && IT_IS.test(next.word)) return split(token, 2, 'it', "'s");
    if (token.word === 'ill' && next.kind === 'word' && !UNWELL.test(before?.word ?? ''))
      return split(token, 1, 'i', "'ll");
    const clipped =
      (token.text === 'an' && next.kind === 'word' && /^[bcdfgjklmnpqrstvwxyz]/.test(next.word)) ||
      (token.text === 'n' && before?.kind === 'word' && token.before !== '' && next.before !== '');
    return [clipped && next.word.length > 1 ? { ...token, ...AND } : token];
  });
