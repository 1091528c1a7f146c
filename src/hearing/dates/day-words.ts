import type { Token } from '../text/tokens.js';
import { namesDayOrMonth, rankAt } from './calendar-words.js';

/** Words of time: without one of them, a name of the calendar, a rank or a figure, no words name a day. */
const TIME = new Set(
  (
    'day days week weeks wk wks weekend fortnight fortnights month months year years yr yrs ' +
    'today tonight tomorrow tmrw tomoz tomorow tommorow tommorrow easter christmas xmas'
  ).split(' '),
);

/** Words that begin a name of a day, beside the names of the calendar, ranks and figures. */
const OPENS = new Set(
  (
    'the this next coming a an one couple in within about around roughly another end back start beginning early ' +
    'mid middle turn good maundy shrove whit boxing new'
  ).split(' '),
);

const isTime = (token: Token, tokens: readonly Token[], at: number): boolean =>
  TIME.has(token.word) || namesDayOrMonth(token) || rankAt(tokens, at) !== undefined;

/**
 * Where a name of a day can begin, in order: most messages name none, and no rule need look at them. In a message without
 * a word of time only figures can ("3/4", "on 15").
 */
export function dayStarts(tokens: readonly Token[]): number[] {
  const timely = tokens.some((token, at) => isTime(token, tokens, at));
  const starts: number[] = [];
  tokens.forEach((token, at) => {
    const opens = token.kind === 'number' || (timely && (OPENS.has(token.word) || isTime(token, tokens, at)));
    if (opens) starts.push(at);
  });
  return starts;
}
