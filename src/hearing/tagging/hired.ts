import type { Token } from '../text/tokens.js';
import { wordAt as word } from '../text/word-at.js';
import { partOf } from './part-index.js';

/** Whether a phrase ends there: a mark that parts it from what follows, or nothing. */
export const isBreak = (token: Token | undefined): boolean =>
  token === undefined || (token.kind === 'mark' && /^[.,;!?()–—\n-]$/.test(token.text));

const DOES =
  /^(do|make|chrome|plate|paint|blast|weld|grind|regrind|rebore|skim|strip|polish|reline|rewind|rebuild|straighten|machine|hone|line|recover|repair|sort|supply|send|quote|fix|nickel|zinc|powder|build|true|balance|test|check|look|turn|mend|post)$/;

/** "Gadsley to chrome the levers", "get Gadsley to do it", "Gadsley order: …", "for Gadsley, chrome": who is to do the work, or was sent an order. */
export const asksToDo = (tokens: readonly Token[], at: number, to: number): boolean => {
  const [lead, next, then] = [word(tokens, at - 1), word(tokens, to), word(tokens, to + 1)];
  if (/^(order|invoice|bill|delivery|parcel)$/.test(next) && !/^(of)$/.test(then)) return true;
  if (next === 'to' && DOES.test(then)) return true;
  if (/^(get|let|have|ask|got)$/.test(lead) && /^(to|do|have|sort|make|weld|chrome|plate|paint)$/.test(next))
    return true;
  return (
    lead === 'for' &&
    at > 1 &&
    isBreak(tokens[to]) &&
    partOf(word(tokens, at - 2), tokens[at - 2] as Token) !== undefined
  );
};
